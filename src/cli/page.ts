import { existsSync } from "node:fs";
import { join } from "node:path";
import { packageFile } from "../hosts/file/package-file.js";
import { type Arguments, type Command, EXIT, type ExitStatus, UsageError } from "./command.js";
import { servePage } from "./page/serve-page.js";

const DEFAULT_PORT = 8320;
/** Above it the ports that are tried next would run out. */
const MOST_PORT = 65_515;

function wantedPort({ options }: Arguments): number {
  const asked = options["port"];
  if (asked === undefined) return DEFAULT_PORT;
  const port = Number(asked);
  if (Number.isInteger(port) && port > 0 && port <= MOST_PORT) return port;
  throw new UsageError(`--port takes a number from 1 to ${MOST_PORT}, not “${asked}”.`);
}

/** The built page: beside the command where it was installed, in dist of a clone. */
function pageFolder(): string {
  const found = ["page", "dist/page"].map(packageFile).find((folder) => existsSync(join(folder, "index.html")));
  if (found === undefined) throw new Error("The page is not built. Run npm start or npm run build once.");
  return found;
}

/** Resolves once the person ends it with Ctrl-C, or the system does. */
function ended(): Promise<void> {
  return new Promise((resolve) => {
    process.once("SIGINT", resolve);
    process.once("SIGTERM", resolve);
  });
}

async function run(args: Arguments): Promise<ExitStatus> {
  if (args.positionals.length > 0) throw new UsageError("It takes no file: open one on the page.");
  const port = wantedPort(args);
  const page = await servePage(pageFolder(), port);
  if (page.port !== port) console.log(`Port ${port} is taken; ${page.port} is used instead.`);
  console.log(`The workbook page is at ${page.address} (this machine only). Press Ctrl-C to end.`);
  await ended();
  await page.close();
  console.log("\nThe page is closed.");
  return EXIT.done;
}

export const pageCommand: Command = {
  usage: "[--port N]",
  help: [
    "Serves the workbook page on this machine alone and prints its address: open it in Chrome, Edge or another browser.",
    "Nothing leaves the machine. Ctrl-C ends it; what is saved stays in your files.",
    "",
    `  --port N   the port to use instead of ${DEFAULT_PORT}; where it is taken, the next free one`,
  ],
  options: { port: { type: "string" } },
  run,
};
