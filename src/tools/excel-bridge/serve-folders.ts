import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import sirv from "sirv";
import { SERVED_HEADERS } from "../addin/hosting.js";

export interface ServedFolders {
  readonly address: string;
  close(): Promise<void>;
}

/** Serves folders on this computer alone, on a free port; the first folder that has a file answers. */
export async function serveFolders(folders: Readonly<Record<string, string>>): Promise<ServedFolders> {
  const handlers = Object.entries(folders).map(([prefix, folder]) => ({ prefix, serve: sirv(folder, { dev: true }) }));
  const server: Server = createServer((request, response) => {
    for (const [name, value] of Object.entries(SERVED_HEADERS)) response.setHeader(name, value);
    const handler = handlers.find(({ prefix }) => request.url?.startsWith(prefix));
    if (handler === undefined) return response.writeHead(404).end();
    request.url = `/${request.url?.slice(handler.prefix.length)}`;
    return handler.serve(request, response, () => {
      response.writeHead(404).end();
    });
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    close: () => new Promise((resolve) => server.close(() => resolve())),
  };
}
