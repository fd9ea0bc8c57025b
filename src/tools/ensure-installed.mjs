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
function packagesAreFresh() {
  const installed = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(installed)) return false;
  const wanted = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
  const present = JSON.parse(readFileSync(installed, "utf8")).packages;
  return Object.entries(wanted).every(
    ([path, { version, optional, peer }]) =>
      path === "" || optional === true || peer === true || present[path]?.version === version,
  );
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

/** Checks Node's version and installs the packages that are missing or stale. */
export function ensureInstalled() {
  requireNode();
  if (packagesAreFresh()) return;
  console.log("Installing what is missing (once; about a minute) …");
  const npm = process.platform === "win32" ? "npm.cmd" : "npm";
  run(npm, ["ci", "--no-audit", "--no-fund", "--loglevel=error"], { shell: process.platform === "win32" });
}

/** Compiles every layer. */
export function compile() {
  runPackage(join("typescript", "bin", "tsc"), ["-b"]);
}

/** Says whether a path is there and newer than another. */
export function isNewer(path, other) {
  return existsSync(path) && statSync(path).mtimeMs >= statSync(other).mtimeMs;
}
