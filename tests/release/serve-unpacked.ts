import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer, type RequestListener } from "node:http";
import { createServer as createSecureServer } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { dirname, extname, join } from "node:path";
import { unzipSync } from "fflate";
import { generateCertificates } from "office-addin-dev-certs";
import sirv from "sirv";

/** A released zip on a server that knows nothing of it. */
export interface ServedZip {
  /** Of the folder, without a slash at its end. */
  readonly address: string;
  close(): Promise<void>;
}

/** The folder in which the server keeps it: seldom the root. */
const PLACE = "tools/air";

/** What the folder's own configuration for a server asks for: headers with every file, and a type for each ending. */
function configured(webConfig: string) {
  const pairs = (pattern: RegExp) =>
    new Map([...webConfig.matchAll(pattern)].map(([, name = "", value = ""]) => [name, value]));
  return {
    headers: pairs(/<add name="([^"]+)" value="([^"]+)"/g),
    types: pairs(/<mimeMap fileExtension="([^"]+)" mimeType="([^"]+)"/g),
  };
}

/** Unpacks a zip into an empty folder, and serves that: over https as its configuration asks, or plainly. */
export async function serveUnpacked(zip: Uint8Array, scheme: "http" | "https"): Promise<ServedZip> {
  const folder = mkdtempSync(join(tmpdir(), "served-release-"));
  for (const [path, bytes] of Object.entries(unzipSync(zip))) {
    const [, ...inside] = path.split("/");
    const file = join(folder, PLACE, ...inside);
    mkdirSync(dirname(file), { recursive: true });
    if (!path.endsWith("/")) writeFileSync(file, bytes);
  }
  const { headers, types } = configured(
    scheme === "https" ? readFileSync(join(folder, PLACE, "web.config"), "utf8") : "",
  );
  const files = sirv(folder, {
    dev: true,
    setHeaders: (response, path) => {
      for (const [name, value] of headers) response.setHeader(name, value);
      const type = types.get(extname(path));
      if (type !== undefined) response.setHeader("Content-Type", type);
    },
  });
  const answer: RequestListener = (request, response) =>
    files(request, response, () => void response.writeHead(404).end());
  const server = scheme === "http" ? createServer(answer) : createSecureServer(await certificate(), answer);
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `${scheme}://localhost:${(server.address() as AddressInfo).port}/${PLACE}`,
    close: async () => {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** A certificate of nobody's, for a day. */
async function certificate() {
  const folder = mkdtempSync(join(tmpdir(), "certificate-"));
  const [authority, cert, key] = ["ca.crt", "own.crt", "own.key"].map((name) => join(folder, name)) as [
    string,
    string,
    string,
  ];
  await generateCertificates(authority, cert, key, 1, ["localhost", "127.0.0.1"]);
  const made = { cert: readFileSync(cert), key: readFileSync(key) };
  rmSync(folder, { recursive: true, force: true });
  return made;
}
