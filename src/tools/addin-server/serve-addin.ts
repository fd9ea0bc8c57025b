import { X509Certificate } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import type { IncomingMessage, ServerResponse } from "node:http";
import { createServer, type Server } from "node:https";
import { extname, join } from "node:path";
import * as certificates from "office-addin-dev-certs";
import * as places from "office-addin-dev-certs/lib/defaults.js";
import sirv from "sirv";
import { DEVELOPMENT_ADDRESS } from "../addin/addin-address.js";
import { CONTENT_TYPES, SERVED_HEADERS } from "../addin/hosting.js";

interface Certificate {
  readonly cert: Buffer;
  readonly key: Buffer;
}

function isValid(path: string): boolean {
  return existsSync(path) && new Date(new X509Certificate(readFileSync(path)).validTo) > new Date();
}

/**
 * Returns a certificate for localhost that this computer trusts, and asks the system once to trust it.
 *
 * On Linux there is no Excel that would ask, only a browser: the certificate is made there, and the person is told.
 */
async function developmentCertificate(): Promise<Certificate> {
  if (process.platform !== "linux") return certificates.getHttpsServerOptions();
  if (!isValid(places.localhostCertificatePath)) {
    certificates.deleteCertificateFiles();
    await certificates.generateCertificates();
  }
  console.log(`For Excel on the web, let the browser trust ${places.caCertificatePath} as an authority.`);
  return { cert: readFileSync(places.localhostCertificatePath), key: readFileSync(places.localhostKeyPath) };
}

/** Only this machine may ask, by its own name: a page elsewhere that leads here under another name is refused. */
function isOwnName(host: string | undefined): boolean {
  return host === new URL(DEVELOPMENT_ADDRESS).host;
}

/**
 * Returns what answers requests for the add-in's files, as the ready configurations for servers do.
 *
 * Excel on the web asks from its own address: a browser then asks first whether this machine lets it.
 */
export function addinAnswers(folder: string): (request: IncomingMessage, response: ServerResponse) => void {
  const files = sirv(folder, {
    dev: true,
    etag: true,
    setHeaders: (response, path) => {
      const type = CONTENT_TYPES[extname(path)];
      if (type !== undefined) response.setHeader("Content-Type", type);
    },
  });
  return (request, response) => {
    for (const [name, value] of Object.entries(SERVED_HEADERS)) response.setHeader(name, value);
    if (!isOwnName(request.headers.host)) response.writeHead(403).end("Ask for this by its own address.");
    else if (request.method === "OPTIONS") {
      response.setHeader("Access-Control-Allow-Methods", "GET, HEAD");
      response.setHeader("Access-Control-Allow-Private-Network", "true");
      response.writeHead(204).end();
    } else if (request.method !== "GET" && request.method !== "HEAD") response.writeHead(405).end();
    else files(request, response, () => void response.writeHead(404).end("There is no such file."));
  };
}

/**
 * Serves the built add-in on https localhost until the returned server is closed.
 *
 * @throws {Error} When there is no certificate, or the port is taken
 */
export async function serveAddin(folder: string): Promise<Server> {
  if (!existsSync(join(folder, "manifest.xml"))) throw new Error(`${folder} holds no add-in. Build it first.`);
  const server = createServer(await developmentCertificate(), addinAnswers(folder));
  const port = Number(new URL(DEVELOPMENT_ADDRESS).port);
  await new Promise<void>((resolve, reject) => {
    server.once("error", (cause: NodeJS.ErrnoException) => {
      if (cause.code !== "EADDRINUSE") return reject(cause);
      reject(new Error(`Port ${port} is taken, and the manifest names it. End what uses it, then try again.`));
    });
    server.listen(port, "localhost", resolve);
  });
  return server;
}
