/*
 * How the add-in's folder wants to be served, written once: the development server sends it, the build puts it into
 * ready configurations, and the install page checks it.
 */

/**
 * Sent with every file. Excel on the web fetches functions.json from its own address, so any address may read the
 * files, which hold nothing of anybody's. They are asked for anew each time: an unchanged file costs one short answer.
 */
export const SERVED_HEADERS: Readonly<Record<string, string>> = {
  "Access-Control-Allow-Origin": "*",
  "Cache-Control": "no-cache",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
};

/** The content type of each kind of file in the folder. */
export const CONTENT_TYPES: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".xml": "application/xml",
  ".png": "image/png",
  ".txt": "text/plain; charset=utf-8",
  ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};

const headers = Object.entries(SERVED_HEADERS);
const types = Object.entries(CONTENT_TYPES);

/** For Internet Information Services; it lies in the folder. */
function webConfig(): string {
  const maps = types.map(([ending, type]) =>
    [
      `      <remove fileExtension="${ending}" />`,
      `      <mimeMap fileExtension="${ending}" mimeType="${type}" />`,
    ].join("\n"),
  );
  const custom = headers.map(([name, value]) =>
    [`        <remove name="${name}" />`, `        <add name="${name}" value="${value}" />`].join("\n"),
  );
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    "<configuration>",
    "  <system.webServer>",
    "    <staticContent>",
    ...maps,
    "    </staticContent>",
    "    <httpProtocol>",
    "      <customHeaders>",
    ...custom,
    "      </customHeaders>",
    "    </httpProtocol>",
    "  </system.webServer>",
    "</configuration>",
    "",
  ].join("\n");
}

/** For Apache, where it heeds .htaccess and has mod_headers; it lies in the folder. */
function htaccess(): string {
  return [
    "Options -Indexes",
    ...types.map(([ending, type]) => `AddType "${type}" ${ending}`),
    "<IfModule mod_headers.c>",
    ...headers.map(([name, value]) => `  Header always set ${name} "${value}"`),
    "</IfModule>",
    "",
  ].join("\n");
}

/** For nginx, to be put into the server's own configuration. */
function nginx(): string {
  const listed = types.map(([ending, type]) => `      ${type.split(";")[0]} ${ending.slice(1)};`);
  return [
    "# Goes inside the server block that has the certificate. Change both paths to where the folder lies.",
    "location /vanesheet/ {",
    "    alias /srv/vanesheet/;",
    "    types {",
    ...listed,
    "    }",
    "    charset utf-8;",
    ...headers.map(([name, value]) => `    add_header ${name} "${value}" always;`),
    "}",
    "",
  ].join("\n");
}

/** For static hosts that read a file named _headers. */
function headersFile(): string {
  return ["/*", ...headers.map(([name, value]) => `  ${name}: ${value}`), ""].join("\n");
}

/** For static hosts that read staticwebapp.config.json. */
function staticWebApp(): string {
  return `${JSON.stringify({ globalHeaders: SERVED_HEADERS, mimeTypes: CONTENT_TYPES }, null, 2)}\n`;
}

/** Ready configurations by their place in the folder. A host takes the one that it knows and leaves the others alone. */
export function hostingFiles(): ReadonlyMap<string, string> {
  return new Map([
    ["web.config", webConfig()],
    [".htaccess", htaccess()],
    ["_headers", headersFile()],
    ["staticwebapp.config.json", staticWebApp()],
    ["hosting/nginx.conf", nginx()],
  ]);
}
