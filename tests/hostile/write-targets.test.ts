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
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { ownWorkbook, sheetInOrder } from "../workbook/takeover/mistakes.js";
import { writeTargetJobs } from "./write-target-jobs.js";

/* Where a command is told to write lies something else than a file, or nothing can lie: it says so, and all stays. */

const COMMAND = resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs");
const LONGEST_MS = 60_000;

interface Target {
  readonly what: string;
  readonly lay: (path: string) => string;
  /** What is said of it. */
  readonly said: RegExp;
  /** The same, where the command reads it too, and so changes it in place. */
  readonly saidInPlace: RegExp;
}

const ABSENT = /is not there\. Check the name/;

/** What lies where the command is to write, by the ending of its name; and what is said of it. */
const TARGETS: readonly Target[] = [
  { what: "a named pipe", lay: (path) => piped(path), said: /named pipe/, saidInPlace: /named pipe/ },
  {
    what: "a link to a named pipe",
    lay: (path) => linked(piped(`${path}.pipe`), path),
    said: /named pipe/,
    saidInPlace: /named pipe/,
  },
  {
    what: "a link to what is gone",
    lay: (path) => linked(`${path}.gone`, path),
    said: /leads nowhere/,
    saidInPlace: ABSENT,
  },
  {
    what: "a link that leads in a circle",
    lay: (path) => linked(path, path),
    said: /leads nowhere/,
    saidInPlace: /leads back to itself/,
  },
  { what: "a folder", lay: (path) => foldered(path), said: /folder/, saidInPlace: /is a folder/ },
  {
    what: "a name that is too long",
    lay: (path) => path.replace(/out/, "o".repeat(256)),
    said: /name that is too long/,
    saidInPlace: /name that is too long/,
  },
  {
    what: "a folder that is not there",
    lay: (path) => path.replace(/out/, "nowhere/out"),
    said: /would lie in “nowhere”, which is not a folder/,
    saidInPlace: ABSENT,
  },
  {
    what: "a file where a folder belongs",
    lay: (path) => path.replace(/out/, "job.xlsx/out"),
    said: /which is not a folder/,
    saidInPlace: ABSENT,
  },
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
  ["columns --keep -o", ".xlsx", (to) => ["columns", "own.xlsx", "--keep", "-o", to, "--replace"]],
  ["convert --apply -o", ".xlsx", (to) => ["convert", "taken.xlsx", "--apply", "-o", to, "--replace"]],
  ["calc in place", ".xlsx", (to) => ["calc", to]],
  ["columns --keep in place", ".xlsx", (to) => ["columns", to, "--keep"]],
  ["convert --apply in place", ".xlsx", (to) => ["convert", to, "--apply"]],
  ["rollup -o", ".xlsx", (to) => ["rollup", "jobs", "-o", to, "--replace"]],
  ["rollup --csv", ".csv", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--csv", to]],
  ["rollup --part", ".part", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--part", to]],
  ["rollup --parquet", ".parquet", (to) => ["rollup", "jobs", "-o", "sum.xlsx", "--replace", "--parquet", to]],
];

describe.skipIf(process.platform === "win32")("a command that is to write", { timeout: 600_000 }, () => {
  let folder = "";
  /** Somebody's own sheet, and the same with its columns taken over. */
  let [own, taken] = [new Uint8Array(), new Uint8Array()];
  const layOut = () => {
    writeTargetJobs(folder);
    writeFileSync(join(folder, "own.xlsx"), own);
    writeFileSync(join(folder, "taken.xlsx"), taken);
  };
  beforeAll(async () => {
    own = new Uint8Array(await ownWorkbook(sheetInOrder()));
    const making = mkdtempSync(join(tmpdir(), "targets-"));
    try {
      writeFileSync(join(making, "own.xlsx"), own);
      execFileSync(process.execPath, [COMMAND, "columns", "own.xlsx", "--keep"], { cwd: making });
      taken = new Uint8Array(readFileSync(join(making, "own.xlsx")));
    } finally {
      rmSync(making, { recursive: true });
    }
    expect(taken).not.toEqual(own);
  });
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), "targets-"));
    layOut();
  });
  afterEach(() => rmSync(folder, { recursive: true }));

  it.each(WRITERS)("%s to what is no file says so in a sentence, and changes nothing", (title, ending, args) => {
    for (const { what, lay, said: saidOfTarget, saidInPlace } of TARGETS) {
      const said = title.endsWith(" in place") ? saidInPlace : saidOfTarget;
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
      layOut();
    }
  });
});
