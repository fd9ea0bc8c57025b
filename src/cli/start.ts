import { runAsProcess } from "./main.js";

/* Where the bundled command line starts; src/cli/vanesheet.mjs starts the one that is only compiled. */
void runAsProcess(process.argv.slice(2)).then((status) => {
  process.exitCode = status;
});
