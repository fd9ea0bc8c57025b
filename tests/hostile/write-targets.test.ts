import { execFileSync, spawnSync } from "node:child_process";
import {
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { writeTargetJobs } from "./write-target-jobs.js";

/* Where a command is told to write lies something else than a file, or nothing can lie: it says so, and all stays. */

const COMMAND = resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs");
const LONGEST_MS = 60_000;

/** What lies where the command is to write, by the ending of its name; and what is said of it. */
const TARGETS: readonly (readonly [what: string, lay: (path: string) => string, said: RegExp])[] = [
  ["a named pipe", (path) => piped(path), /named pipe/],
  ["a link to a named pipe", (path) => linked(piped(`${path}.pipe`), path), /named pipe/],
  ["a link to what is gone", (path) => linked(`${path}.gone`, path), /leads nowhere/],
  ["a link that leads in a circle", (path) => linked(path, path), /leads nowhere/],
  ["a folder", (path) => foldered(path), /folder/],
  ["a name that is too long", (path) => path.replace(/out/, "o".repeat(256)), /name that is too long/],
  [
    "a folder that is not there",
    (path) => path.replace(/out/, "nowhere/out"),
    /would lie in “nowhere”, which is not a folder/,
  ],
  ["a file where a folder belongs", (path) => path.replace(/out/, "job.xlsx/out"), /which is not a folder/],
];

function piped(path: string): string {
  execFileSync("mkfifo", [path]);
  return path;
}

function linked(to: string, path: string): string {
  symlinkSync(to, path);
  return path;
}

function foldered(path: string): string {
  mkdirSync(path);
  return path;
}

/** Every file below a folder, by what it is and holds; what a roll-up keeps for its next run is no result. */
function stateOf(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: "utf8" })
    .filter((name) => !/^\.vanesheet(?:\/[^/]+\.readings)?$/.test(name))
    .sort()
    .map((name) => {
      const stats = lstatSync(join(folder, name));
      if (stats.isSymbolicLink()) return `${name} -> ${readlinkSync(join(folder, name))}`;
      return stats.isFile() ? `${name}: ${readFileSync(join(folder, name), "base64")}` : `${name} ${stats.mode}`;
    });
}

/** A call that writes to a place of which only the ending is given. */
const WRITERS: readonly (readonly [title: string, ending: string, args: (to: string) => readonly string[]])[] = [
  ["new", ".xlsx", (to) => ["new", "room-balance", to]],
  ["calc -o", ".xlsx", (to) => ["calc", "job.xlsx", "-o", to, "--replace"]],
  ["handoff -o", ".xlsx", (to) => ["handoff", "job.xlsx", "-o", to, "--replace"]],
  ["rollup -o", ".xlsx", (to) => ["rollup", "jobs", "-o", to, "--replace"]],
  ["rollup --csv", ".csv", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--csv", to]],
  ["rollup --part", ".part", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--part", to]],
  ["rollup --parquet", ".parquet", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--parquet", to]],
];

describe.skipIf(process.platform === "win32")("a command that is to write", { timeout: 600_000 }, () => {
  let folder = "";
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "targets-"));
    writeTargetJobs(folder);
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it.each(WRITERS)("%s to what is no file says so in a sentence, and changes nothing", (title, ending, args) => {
    for (const [what, lay, said] of TARGETS) {
      // A part is a folder, and makes those that it lies in.
      if (title === "rollup --part" && / folder/.test(what)) continue;
      const target = relative(folder, lay(join(folder, `out${ending}`)));
      const before = stateOf(folder);
      const { status, signal, stdout, stderr } = spawnSync(process.execPath, [COMMAND, ...args(target)], {
        cwd: folder,
        encoding: "utf8",
        timeout: LONGEST_MS,
      });
      expect([what, signal, status === 1 || status === 2, stdout], stderr).toEqual([what, null, true, ""]);
      expect(stderr, what).toMatch(title === "new" ? new RegExp(`${said.source}|is there already`) : said);
      expect(stderr.trim().split("\n").length, stderr).toBe(1);
      expect(stateOf(folder), what).toEqual(before);
      rmSync(folder, { recursive: true });
      mkdirSync(folder);
      writeTargetJobs(folder);
    }
  });
});
