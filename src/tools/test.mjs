/*
 * `npm test`: installs what is missing, compiles, lints and runs every test. Browser and spreadsheet tests are part of
 * it: where Chromium, LibreOffice or Gnumeric is missing it is installed by apt, or the run ends with a sentence that says so.
 */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { join } from "node:path";
import { compile, ensureInstalled, root, run, runPackage } from "./ensure-installed.mjs";

const onPath = (program) =>
  spawnSync(process.platform === "win32" ? "where" : "which", [program], { stdio: "ignore" }).status === 0;

const canInstallByApt = process.platform === "linux" && process.getuid?.() === 0 && onPath("apt-get");

/** Installs the first of the packages that this system has. */
function installByApt(what, packages) {
  if (!canInstallByApt) return;
  console.log(`Installing ${what} for the tests …`);
  const quiet = { stdio: ["ignore", "ignore", "inherit"], env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" } };
  run("apt-get", ["update", "-qq"], quiet);
  const isThere = (name) => spawnSync("apt-cache", ["show", name], { stdio: "ignore" }).status === 0;
  const name = packages.find(isThere) ?? packages[0];
  run("apt-get", ["install", "-y", "-qq", "--no-install-recommends", name], quiet);
}

function stopWithout(what, how) {
  console.error(`The tests need ${what}, and none was found. ${how} No test was skipped; none was run.`);
  process.exit(1);
}

async function requireBrowser() {
  const { findBrowser } = await import(join(root, "build/src/tools/find-browser.js"));
  const found = () => {
    try {
      return findBrowser();
    } catch {
      return null; // The reason is said below, once apt has had its chance.
    }
  };
  if (found() === null) installByApt("Chromium", ["chromium-headless-shell", "chromium"]);
  if (found() === null) stopWithout("Chrome, Edge or Chromium", "Install one, or set CHROME_PATH to it.");
}

function requireLibreOffice() {
  const isThere = () => onPath("soffice") || existsSync("/Applications/LibreOffice.app");
  if (!isThere()) installByApt("LibreOffice", ["libreoffice-calc-nogui"]);
  if (!isThere()) stopWithout("LibreOffice", "Install it and put its program soffice on the PATH.");
}

function requireGnumeric() {
  if (!onPath("ssconvert")) installByApt("Gnumeric", ["gnumeric"]);
  if (!onPath("ssconvert")) stopWithout("Gnumeric", "Install it and put its program ssconvert on the PATH.");
}

ensureInstalled();
compile();
await requireBrowser();
requireLibreOffice();
requireGnumeric();
runPackage(join("@biomejs", "biome", "bin", "biome"), ["check", "--error-on-warnings", "."]);
runPackage(join("knip", "bin", "knip.js"), ["--no-progress"]);
runPackage(join("webpack", "bin", "webpack.js"), ["--mode", "production"]);
runPackage(join("vitest", "vitest.mjs"), ["run", "--config", ".vitest.config.ts", ...process.argv.slice(2)]);
