import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const BUNDLED = fileURLToPath(new URL("../../../../dist/cli/vanesheet.cjs", import.meta.url));

/** The command line as people get it, bundled, where it is built; otherwise as it is compiled. */
export const COMMAND = existsSync(BUNDLED)
  ? BUNDLED
  : fileURLToPath(new URL("../../../../src/cli/vanesheet.mjs", import.meta.url));
