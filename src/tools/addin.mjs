/*
 * `npm run addin`: installs what is missing, builds the add-in, serves it on https localhost and says how to show it to
 * Excel.
 */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { compile, ensureInstalled, PROGRAM_PROJECTS, root, runPackage } from "./ensure-installed.mjs";

const ADDIN = join(root, "dist", "addin");

const compiled = (path) => import(pathToFileURL(join(root, "build", "src", "tools", path)).href);

async function serve() {
  const { DEVELOPMENT_ADDRESS } = await compiled("addin/addin-address.js");
  const { serveAddin } = await compiled("addin-server/serve-addin.js");
  const { sideloadHelp } = await compiled("addin-server/sideload-help.js");
  const server = await serveAddin(ADDIN);
  const end = () => {
    server.closeAllConnections();
    server.close(() => {
      console.log("\nThe add-in is no longer served.");
      process.exit(0);
    });
  };
  process.once("SIGINT", end);
  process.once("SIGTERM", end);
  console.log(`\nThe add-in is served at ${DEVELOPMENT_ADDRESS} (this machine only). Press Ctrl-C to end.\n`);
  console.log(sideloadHelp(join(ADDIN, "manifest.xml")));
}

// The manifest must name this machine, whatever the last build was for.
process.env.VANESHEET_BASE_URL = "https://localhost:3000";
process.env.VANESHEET_DEPLOYED = "developer";
ensureInstalled("everything");
compile(PROGRAM_PROJECTS);
console.log("Building the add-in …");
const quiet = ["--config-name", "addin", "--stats", "errors-warnings"];
runPackage(join("webpack", "bin", "webpack.js"), ["--mode", "production", ...quiet]);
try {
  await serve();
} catch (cause) {
  console.error(cause instanceof Error ? cause.message : String(cause));
  process.exit(1);
}
