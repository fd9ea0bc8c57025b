import { createServer, type Server } from "node:http";
import sirv from "sirv";
import { PAGE_POLICY } from "./page-policy.js";

/** Only this machine may ask: the page is nobody else's. */
const HOST = "127.0.0.1";

/** How many ports after the wanted one are tried. */
const TRIED_PORTS = 20;

export interface ServedPage {
  readonly address: string;
  readonly port: number;
  readonly close: () => Promise<void>;
}

function listen(server: Server, port: number): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("error", reject);
    server.listen(port, HOST, () => {
      server.off("error", reject);
      resolve();
    });
  });
}

async function listenFrom(server: Server, wantedPort: number): Promise<number> {
  for (let port = wantedPort; port < wantedPort + TRIED_PORTS; port += 1) {
    try {
      await listen(server, port);
      return port;
    } catch (cause) {
      if ((cause as NodeJS.ErrnoException).code !== "EADDRINUSE") throw cause;
    }
  }
  throw new Error(
    `Ports ${wantedPort} to ${wantedPort + TRIED_PORTS - 1} are all taken. Choose another: --port N, or VANESHEET_PORT for npm start.`,
  );
}

/** Refuses what asks for this address under another name, so that no other site can read the page. */
function isOwnName(host: string | undefined, port: number): boolean {
  return host === `${HOST}:${port}` || host === `localhost:${port}`;
}

/** Serves the built page on this machine alone, at the wanted port or the next free one. */
export async function servePage(folder: string, wantedPort: number): Promise<ServedPage> {
  const headers = {
    "Content-Security-Policy": `${PAGE_POLICY}; frame-ancestors 'none'`,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
    "Cache-Control": "no-cache",
  };
  const serve = sirv(folder, { dev: true, etag: true });
  let port = wantedPort;
  const server = createServer((request, response) => {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    if (!isOwnName(request.headers.host, port)) response.writeHead(403).end("Open this page by its own address.");
    else if (request.method !== "GET" && request.method !== "HEAD") response.writeHead(405).end();
    else serve(request, response, () => void response.writeHead(404).end("There is no such file."));
  });
  port = await listenFrom(server, wantedPort);
  return {
    address: `http://${HOST}:${port}/`,
    port,
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}
