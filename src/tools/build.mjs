/*
 * `npm run build`: installs what is missing and builds everything into dist: the workbook page and the add-in, which
 * holds no address unless VANESHEET_BASE_URL gives one.
 */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { compile, ensureInstalled, PROGRAM_PROJECTS, root, runPackage } from "./ensure-installed.mjs";

const compiled = (path) => import(pathToFileURL(join(root, "build", "src", "tools", path)).href);

ensureInstalled("program");
compile(PROGRAM_PROJECTS);
try {
  const { addinAddress } = await compiled("addin/addin-address.js");
  const { FUNCTIONS_BUNDLE_LIMIT_KB, functionsBundleKb } = await compiled("addin/functions-bundle-size.js");
  const address = addinAddress(process.env.VANESHEET_BASE_URL);
  runPackage(join("webpack", "bin", "webpack.js"), ["--mode", "production", "--stats", "errors-warnings"]);
  const size = functionsBundleKb(join(root, "dist", "addin")).toFixed(1);
  console.log(
    `dist/addin: ${address === null ? "for any https address; open its install.html there" : `for ${address}`}. Its functions weigh ${size} kB (at most ${FUNCTIONS_BUNDLE_LIMIT_KB}).`,
  );
  console.log("dist/page: the workbook page.");
} catch (cause) {
  console.error(cause instanceof Error ? cause.message : String(cause));
  process.exit(1);
}
