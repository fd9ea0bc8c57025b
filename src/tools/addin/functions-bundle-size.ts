import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

/** What the functions' script may weigh: Excel loads it before the first formula shows a number. */
export const FUNCTIONS_BUNDLE_LIMIT_KB = 32;

/** Returns the size of the functions' script as a server sends it [kB, gzip]. */
export function functionsBundleKb(folder: string): number {
  return gzipSync(readFileSync(join(folder, "functions.js"))).length / 1000;
}
