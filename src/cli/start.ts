import { runCommandLine } from "./main.js";

/* Where the bundled command line starts; src/cli/vanesheet.mjs starts the one that is only compiled. */
process.exitCode = await runCommandLine(process.argv.slice(2));
