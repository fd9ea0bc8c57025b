import { existsSync } from "node:fs";
import { join } from "node:path";
import { FUNCTIONS_BUNDLE_LIMIT_KB, functionsBundleKb } from "../addin/functions-bundle-size.js";
import type { BenchRow } from "./bench-row.js";

/** Compares the size of the script that Excel loads before the first formula shows a number with its limit. */
export function benchBundles(repository: string): readonly BenchRow[] {
  const folder = join(repository, "dist/addin");
  if (!existsSync(folder)) throw new Error('dist/addin is missing. Run "npm run build" first.');
  return [
    {
      name: "the functions' bundle, gzip, against its limit",
      ours: functionsBundleKb(folder),
      theirs: FUNCTIONS_BUNDLE_LIMIT_KB,
      unit: "kB",
      target: 1,
    },
  ];
}
