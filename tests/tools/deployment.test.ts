import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { afterEach, describe, expect, it } from "vitest";
import { type Answer, checkFolder, manifestFor } from "../../src/pane/install/check-folder.js";
import { addinDeployment, asDeployed } from "../../src/tools/addin/deployed-template.js";
import { CONTENT_TYPES, hostingFiles, SERVED_HEADERS } from "../../src/tools/addin/hosting.js";
import { readElements } from "../../src/tools/addin/read-elements.js";
import { addinAnswers } from "../../src/tools/addin-server/serve-addin.js";

const closing: (() => void)[] = [];
afterEach(() => {
  for (const close of closing.splice(0)) close();
});

/** Serves a small folder as the development server does; the request names the host that it asks for. */
async function ask(path: string, host: string, method = "GET"): Promise<{ status: number; headers: Headers }> {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-served-"));
  writeFileSync(join(folder, "functions.json"), "{}");
  const server = createServer(addinAnswers(folder));
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  closing.push(() => {
    server.close();
    rmSync(folder, { recursive: true, force: true });
  });
  const { port } = server.address() as AddressInfo;
  const { request } = await import("node:http");
  return new Promise((resolve, reject) => {
    request({ port, path, method, headers: { host, origin: "https://excel.example" } }, (response) => {
      response.resume();
      const headers = new Headers();
      for (const [name, value] of Object.entries(response.headers)) headers.set(name, String(value));
      resolve({ status: response.statusCode ?? 0, headers });
    })
      .on("error", reject)
      .end();
  });
}

describe("the development server", () => {
  it("lets another address read the functions, as Excel on the web does", async () => {
    const { status, headers } = await ask("/functions.json", "localhost:3000");
    expect(status).toBe(200);
    for (const [name, value] of Object.entries(SERVED_HEADERS)) expect(headers.get(name)).toBe(value);
    const before = await ask("/functions.json", "localhost:3000", "OPTIONS");
    expect(before.status).toBe(204);
    expect(before.headers.get("access-control-allow-private-network")).toBe("true");
  });

  it("refuses whoever asks for it under another name, and whoever wants to write", async () => {
    expect((await ask("/functions.json", "elsewhere.example")).status).toBe(403);
    expect((await ask("/functions.json", "localhost:3000", "POST")).status).toBe(405);
  });
});

describe("the ready configurations", () => {
  it.each([...hostingFiles()])("%s sends the same headers as the development server", (_name, text) => {
    for (const [name, value] of Object.entries(SERVED_HEADERS)) {
      expect(text).toContain(name);
      expect(text).toContain(value);
    }
  });

  it("for IIS is XML that names every kind of file", () => {
    const elements = readElements(hostingFiles().get("web.config") ?? "");
    const named = elements
      .filter(({ name }) => name === "mimeMap")
      .map(({ attributes }) => attributes["fileExtension"]);
    expect(named).toEqual(Object.keys(CONTENT_TYPES));
  });
});

describe("the install page", () => {
  const files: Readonly<Record<string, string>> = {
    "files.json": JSON.stringify(["pane.html", "pane.js", "functions.json", "web.config"]),
    "pane.html": "",
    "pane.js": "",
    "functions.json": "{}",
  };
  const types: Readonly<Record<string, string>> = {
    html: "text/html",
    js: "text/javascript",
    json: "application/json",
  };

  const served =
    (headers: Readonly<Record<string, string>>, changes: Readonly<Record<string, Partial<Answer>>> = {}) =>
    async (path: string): Promise<Answer> => ({
      status: path in files ? 200 : 404,
      isRedirected: false,
      header: (name) => headers[name] ?? (name === "content-type" ? (types[path.split(".")[1] ?? ""] ?? null) : null),
      text: async () => files[path] ?? "",
      ...changes[path],
    });
  const good = { "access-control-allow-origin": "*", "cache-control": "no-cache" };
  const todo = async (address: string, ask: (path: string) => Promise<Answer>) =>
    (await checkFolder(address, ask)).filter(({ isInOrder }) => !isInOrder).map(({ what }) => what);

  it("finds a folder in order that is served as the ready configurations do", async () => {
    expect(await todo("https://apps.example.com/vanesheet/", served(good))).toEqual([]);
  });

  it.each([
    ["plain http", "http://apps.example.com/", served(good), "https with a certificate"],
    ["no leave for other addresses", "https://a.example/", served({ "cache-control": "no-cache" }), "Excel on the web"],
    [
      "long caching",
      "https://a.example/",
      served({ ...good, "cache-control": "max-age=86400" }),
      "Updates show at once",
    ],
    ["a missing script", "https://a.example/", served(good, { "pane.js": { status: 404 } }), "Every file is there"],
    ["a login page", "https://a.example/", served(good, { "pane.html": { isRedirected: true } }), "No login page"],
    [
      "a script as text",
      "https://a.example/",
      served(good, { "pane.js": { header: () => "text/plain" } }),
      "Content types",
    ],
    ["no list of files", "https://a.example/", served(good, { "files.json": { status: 404 } }), "Every file is there"],
  ])("finds %s", async (_what, address, answer, found) => {
    expect((await todo(address, answer)).join()).toContain(found);
  });

  it("hands out the manifest for the address that it is served from", () => {
    const template = readFileSync("manifest/manifest.xml", "utf8").replaceAll("https://localhost:3000", "%ADDRESS%");
    const manifest = manifestFor(template, "https://apps.example.com/a&b/");
    expect(manifest).not.toContain("%ADDRESS%");
    const urls = readElements(manifest).flatMap(({ attributes }) => attributes["DefaultValue"] ?? []);
    expect(urls).toContain("https://apps.example.com/a&b/pane.html");
  });
});

describe("a template", () => {
  const bytes = () => new Uint8Array(readFileSync("templates/room-balance.xlsx"));
  const part = (file: Uint8Array) => strFromU8(unzipSync(file)["xl/webextensions/webextension1.xml"] as Uint8Array);

  it.each([
    ["admin", 'store="EXCatalog" storeType="EXCatalog"'],
    ["developer", 'store="developer" storeType="Registry"'],
    ["\\\\server\\air & heat", 'store="\\\\server\\air &amp; heat" storeType="FileSystem"'],
  ])("names the add-in as it was given to people by %s", (given, reference) => {
    const file = asDeployed(bytes(), addinDeployment(given), "0.2.0");
    expect(part(file)).toContain(`version="0.2.0.0" ${reference}`);
    expect(part(file)).toContain('name="Office.AutoShowTaskpaneWithDocument" value="true"');
    expect(Object.keys(unzipSync(file)).sort()).toEqual(Object.keys(unzipSync(bytes())).sort());
  });

  it("of the repository names the add-in of the admin center", () => {
    expect(asDeployed(bytes(), { kind: "admin" }, "0.2.0")).toEqual(bytes());
  });

  it("takes no other way of deployment", () => {
    expect(() => addinDeployment("store")).toThrow("VANESHEET_DEPLOYED is “store”");
  });
});
