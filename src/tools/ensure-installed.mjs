/*
 * Plain JavaScript, since it runs before anything is installed.
 */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The folder of the clone. */
export const root = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

const MINIMUM_NODE = [20, 19];

function requireNode() {
  const [major, minor] = process.versions.node.split(".").map(Number);
  if (major > MINIMUM_NODE[0] || (major === MINIMUM_NODE[0] && minor >= MINIMUM_NODE[1])) return;
  console.error(`Vanesheet needs Node ${MINIMUM_NODE.join(".")} or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

/** npm keeps its own copy of the lock file; an older or missing one means that packages are missing or stale. */
function packagesAreFresh(what) {
  const installed = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(installed)) return false;
  const wanted = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
  const present = JSON.parse(readFileSync(installed, "utf8")).packages;
  if (Object.entries(present).some(([path, { version }]) => wanted[path]?.version !== version)) return false;
  if (what === "everything") {
    return Object.entries(wanted).every(
      ([path, { version, optional, peer }]) =>
        !path.includes("node_modules/") || optional === true || peer === true || present[path]?.version === version,
    );
  }
  const { dependencies, devDependencies } = wanted[""];
  return Object.keys({ ...dependencies, ...devDependencies }).every((name) => `node_modules/${name}` in present);
}

/** Runs a program of this project to its end, and ends this process with its status when it fails. */
export function run(command, args, options = {}) {
  const { status, signal, error } = spawnSync(command, args, { cwd: root, stdio: "inherit", ...options });
  if (error) {
    console.error(`${command} could not be started: ${error.message}`);
    process.exit(1);
  }
  if (status !== 0) process.exit(status ?? (signal === "SIGINT" ? 130 : 1));
}

/** Runs a program that a package brings, by its path in node_modules, with this very Node. */
export function runPackage(script, args) {
  run(process.execPath, [join(root, "node_modules", script), ...args]);
}

/**
 * Checks Node's version and installs the packages that are missing or stale.
 *
 * @param what - "program": what runs and builds it; "everything": what tests, lints, benchmarks and generators need too
 */
export function ensureInstalled(what = "everything") {
  requireNode();
  if (packagesAreFresh(what)) return;
  console.log("Installing what is missing (once; about a minute) …");
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  // What is optional is for building the packages themselves, which nobody does here.
  const less = what === "program" ? ["--workspaces=false", "--omit=optional"] : [];
  const quiet = ["--no-audit", "--no-fund", "--loglevel=error"];
  run(npm, ["ci", ...quiet, ...less], { shell: process.platform === "win32" });
}

/** Compiles some layers and what they lean on, or every layer. */
export function compile(projects = []) {
  runPackage(join("typescript", "bin", "tsc"), ["-b", ...projects]);
}

/** What compiles for the page, the add-in and the command line, without tests and benchmarks. */
export const PROGRAM_PROJECTS = ["src/cli", "src/tools/program"];

/** Says whether a path is there and newer than another. */
export function isNewer(path, other) {
  return existsSync(path) && statSync(path).mtimeMs >= statSync(other).mtimeMs;
}
