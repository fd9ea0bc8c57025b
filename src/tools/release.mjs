/*
 * `npm run release`: builds everything and writes what people get into dist/release.
 */
import { join } from "node:path";
import { compile, ensureInstalled, root, run, runPackage } from "./ensure-installed.mjs";

process.env.VANESHEET_BASE_URL = ""; // No artifact is built for one address.
ensureInstalled("everything");
compile();
runPackage(join("webpack", "bin", "webpack.js"), ["--mode", "production", "--stats", "errors-warnings"]);
run(process.execPath, [join(root, "build", "src", "tools", "release", "build-release.js")]);
