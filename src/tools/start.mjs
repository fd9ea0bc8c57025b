/*
 * `npm start`: installs what is missing, builds what is stale, serves the workbook page on this machine and says where.
 */
import { existsSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { compile, ensureInstalled, PROGRAM_PROJECTS, root, runPackage } from "./ensure-installed.mjs";

const DEFAULT_PORT = 8320;
const PAGE = join(root, "dist", "page");
/** Written after each build: the bundler leaves files alone that come out the same. */
const STAMP = join(root, "dist", ".page-built");
const SOURCES = ["src", "shared/tables", "manifest/icons", "templates", "webpack.config.js", "package-lock.json"];

function newest(path) {
  if (!existsSync(path)) return 0;
  const stats = statSync(path);
  if (!stats.isDirectory()) return stats.mtimeMs;
  return Math.max(0, ...readdirSync(path).map((name) => newest(join(path, name))));
}

function pageIsFresh() {
  if (!existsSync(STAMP) || !existsSync(join(PAGE, "index.html"))) return false;
  return statSync(STAMP).mtimeMs >= Math.max(...SOURCES.map((path) => newest(join(root, path))));
}

function build() {
  compile(PROGRAM_PROJECTS);
  if (pageIsFresh()) return;
  console.log("Building the page (once; about half a minute) …");
  const quiet = ["--config-name", "page", "--stats", "errors-warnings"];
  runPackage(join("webpack", "bin", "webpack.js"), ["--mode", "production", ...quiet]);
  writeFileSync(STAMP, "");
}

function wantedPort() {
  const given = process.env.VANESHEET_PORT;
  if (given === undefined) return DEFAULT_PORT;
  const port = Number(given);
  if (Number.isInteger(port) && port > 0 && port < 65_516) return port;
  console.error(`VANESHEET_PORT is “${given}”. Give a port from 1 to 65515.`);
  process.exit(1);
}

/** Modules that exist only once the sources are compiled. */
function compiled(path) {
  return import(pathToFileURL(join(root, "build", "src", path)).href);
}

async function serve() {
  const { servePage } = await compiled("cli/page/serve-page.js");
  const { demoSummary } = await compiled("tools/page/demo-summary.js");
  const port = wantedPort();
  const page = await servePage(PAGE, port);
  const end = async () => {
    await page.close();
    console.log("\nThe page is closed.");
    process.exit(0);
  };
  process.once("SIGINT", end);
  process.once("SIGTERM", end);
  console.log(await demoSummary(join(root, "templates")));
  if (page.port !== port) console.log(`\nPort ${port} is taken; ${page.port} is used instead.`);
  console.log(`\nThe workbook page is at ${page.address} (this machine only). Press Ctrl-C to end.`);
}

ensureInstalled("program");
build();
try {
  await serve();
} catch (cause) {
  console.error(cause instanceof Error ? cause.message : String(cause));
  process.exit(1);
}
