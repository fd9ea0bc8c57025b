import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { FUNCTIONS_BUNDLE_LIMIT_KB, functionsBundleKb } from "../../src/tools/addin/functions-bundle-size.js";

const FOLDER = join("dist", "addin");
/** As a file manager counts them. */
const MEGABYTE = 1024 ** 2;
const MOST_MEGABYTES = 2;

it("the functions' script is as light as Excel needs it before the first formula shows a number", () => {
  expect(functionsBundleKb(FOLDER)).toBeLessThanOrEqual(FUNCTIONS_BUNDLE_LIMIT_KB);
});

it("the add-in's folder is small enough to be kept whole", () => {
  const files = readdirSync(FOLDER, { recursive: true, encoding: "utf8" }).map((name) => statSync(join(FOLDER, name)));
  const bytes = files.filter((one) => one.isFile()).reduce((sum, { size }) => sum + size, 0);
  expect(bytes / MEGABYTE).toBeLessThanOrEqual(MOST_MEGABYTES);
});
