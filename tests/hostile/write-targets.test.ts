import { execFileSync } from "node:child_process";
import {
  chmodSync,
  cpSync,
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
import { basename, join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { allTypedIn, type Ended } from "../cli/vanesheet.js";
import { ownWorkbook, sheetInOrder } from "../workbook/takeover/mistakes.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

/*
 * Where a command is told to write lies something else than a file, or nothing can lie: it says so, and all stays. The
 * calls share a process, since each takes a moment and a process of its own a second.
 */

const TEMPLATE = resolve(import.meta.dirname, "../../templates/job-summary.xlsx");

/** A call that writes to a place of which only the ending is given. */
type Writer = readonly [title: string, ending: string, args: (to: string) => readonly string[]];

const WRITERS: readonly Writer[] = [
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

const isInPlace = (title: string) => title.endsWith(" in place");

/** The workbook that a command changes in place; what the others take the place of may be any. */
function workbookFor(title: string): string {
  if (title.startsWith("calc")) return "stale.xlsx";
  return title.startsWith("convert") ? "taken.xlsx" : "own.xlsx";
}

interface Target {
  readonly what: string;
  /** Lays it at a path in an empty folder, or names another there. The third is a workbook that the command can change. */
  readonly lay: (path: string, folder: string, workbook: string) => string;
  /** What is said of it. */
  readonly said: RegExp;
  /** The same, where the command reads it too, and so changes it in place. */
  readonly saidInPlace: RegExp;
  /** Whether it is in nobody's way who writes a part, which is a folder and makes those that it lies in. */
  readonly isFineForPart?: boolean;
}

const ABSENT = /: is not there\. Check the name/;
const PROTECTED = /: is write-protected\. Take the protection off/;
const SHUT =
  /: could not be saved: nothing may be written in “[^”]*”; the file is as it was\. Check the permissions of/;
const GONE = /: is a link to “[^”]*\/gone”, which is not there\. /;
const CIRCLE = /: is a link that leads back to itself\. /;

const TARGETS: readonly Target[] = [
  { what: "a named pipe", lay: piped, said: /named pipe/, saidInPlace: /named pipe/ },
  {
    what: "a link to a named pipe",
    lay: (path) => linked(piped(`${path}.pipe`), path),
    said: /named pipe/,
    saidInPlace: /named pipe/,
  },
  {
    what: "a link to what is gone",
    lay: (path) => linked("gone", path),
    said: new RegExp(`${GONE.source}Remove the link`),
    saidInPlace: new RegExp(`${GONE.source}Bring back`),
  },
  {
    what: "a link to a link to what is gone",
    lay: (path) => linked(basename(linked("gone", `${path}.link`)), path),
    said: GONE,
    saidInPlace: GONE,
  },
  {
    what: "a name in a linked folder that is gone",
    lay: (path, folder) => join(linked("gone", join(folder, "linked")), basename(path)),
    said: /: lies in “[^”]*linked”, a link to “[^”]*gone”, which is not there\. Remove the link/,
    saidInPlace: /: lies in “[^”]*linked”, a link to “[^”]*gone”, which is not there\. Bring back/,
  },
  { what: "a link that leads in a circle", lay: (path) => linked(path, path), said: CIRCLE, saidInPlace: CIRCLE },
  { what: "a folder", lay: foldered, said: /folder/, saidInPlace: /is a folder/, isFineForPart: true },
  {
    what: "a name that is too long",
    lay: (path) => path.replace(/out(?=\.)/, "o".repeat(256)),
    said: /name that is too long/,
    saidInPlace: /name that is too long/,
  },
  {
    what: "a folder that is not there",
    lay: (path, folder) => join(folder, "nowhere", basename(path)),
    said: /would lie in “[^”]*nowhere”, which is not a folder/,
    saidInPlace: ABSENT,
    isFineForPart: true,
  },
  {
    what: "a file where a folder belongs",
    lay: (path, folder, workbook) => join(copied(workbook, join(folder, "job.xlsx")), basename(path)),
    said: /which is not a folder/,
    saidInPlace: ABSENT,
    isFineForPart: true,
  },
  {
    what: "a write-protected file",
    lay: (path, _, workbook) => protectedFrom(copied(workbook, path), 0o444),
    said: PROTECTED,
    saidInPlace: PROTECTED,
    isFineForPart: true,
  },
];

/** The root user may write to these, so that somebody else has to try. */
const SHUT_TARGETS: readonly Target[] = [
  {
    what: "a folder in which nothing may be written",
    lay: (path, folder, workbook) => {
      protectedFrom(copied(workbook, join(folder, basename(workbook))), 0o666);
      protectedFrom(folder, 0o555);
      return path;
    },
    said: SHUT,
    saidInPlace: SHUT,
  },
  // Only the root user can make files of somebody else.
  ...(process.getuid?.() === 0
    ? [
        {
          what: "a file of somebody else",
          lay: (path: string, folder: string, workbook: string) => {
            protectedFrom(folder, 0o777);
            return protectedFrom(copied(workbook, path), 0o644);
          },
          said: PROTECTED,
          saidInPlace: PROTECTED,
          isFineForPart: true,
        },
      ]
    : []),
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

function copied(from: string, to: string): string {
  cpSync(from, to);
  return to;
}

function protectedFrom(path: string, mode: number): string {
  chmodSync(path, mode);
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

/** Puts what the calls read into an empty folder; a roll-up refuses before it reads a job. */
async function layOut(folder: string): Promise<void> {
  foldered(join(folder, "jobs"));
  for (const name of ["job.xlsx", "jobs/one.xlsx", "jobs/two.xlsx"]) copied(TEMPLATE, join(folder, name));
  const own = await ownWorkbook(sheetInOrder());
  for (const name of ["own.xlsx", "taken.xlsx"]) writeFileSync(join(folder, name), own);
  // Without its result, so that calculating changes the file.
  const formula = "<f>VANE.AIRFLOW.FACE(14,6,400,0.75)</f>";
  writeFileSync(join(folder, "stale.xlsx"), plainWorkbook(`<row r="1"><c r="A1">${formula}</c></row>`));
  allTypedIn(folder, [["columns", "taken.xlsx", "--keep"]], "us");
  expect(readFileSync(join(folder, "taken.xlsx"))).not.toEqual(readFileSync(join(folder, "own.xlsx")));
  execFileSync("chmod", ["-R", "u=rwX,go=rX", folder]);
  chmodSync(folder, 0o777);
}

describe.skipIf(process.platform === "win32")("a command that is to write", { timeout: 300_000 }, () => {
  let folder = "";
  const said = new Map<string, readonly (readonly [Target, Ended])[]>();
  let before: readonly string[] = [];
  let after: readonly string[] = [];

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "targets-"));
    await layOut(folder);
    const laid = WRITERS.flatMap((writer) =>
      [...TARGETS, ...SHUT_TARGETS]
        .filter(({ isFineForPart }) => isFineForPart !== true || writer[0] !== "rollup --part")
        .map((target, index) => laidFor(writer, target, index)),
    );
    before = stateOf(folder);
    const ended = (["us", "anybody"] as const).flatMap((who) => {
      const theirs = laid.filter(({ target }) => SHUT_TARGETS.includes(target) === (who === "anybody"));
      const answers = allTypedIn(
        folder,
        theirs.map(({ args }) => args),
        who,
      );
      return theirs.map(({ title, target }, index) => ({ title, target, answer: answers[index] as Ended }));
    });
    after = stateOf(folder);
    for (const [title] of WRITERS) {
      const own = ended.filter((one) => one.title === title);
      said.set(
        title,
        own.map(({ target, answer }) => [target, answer] as const),
      );
    }
  }, 300_000);
  afterAll(() => {
    execFileSync("chmod", ["-R", "u+rwX", folder]);
    rmSync(folder, { recursive: true });
  });

  /** Lays a target into a folder of its own. */
  const laidFor = ([title, ending, args]: Writer, target: Target, index: number) => {
    const name = `${title.replaceAll(" ", "-")} ${index}`;
    const place = foldered(join(folder, name));
    const workbook = join(folder, workbookFor(title));
    const path = target.lay(join(place, `out${ending}`), place, workbook);
    const isShutFolder = target.what.startsWith("a folder in which") && isInPlace(title);
    const to = isShutFolder ? join(name, basename(workbook)) : join(name, path.slice(place.length + 1));
    return { title, target, args: args(to) };
  };

  it.each(WRITERS)("%s to what is no place for it says so in a sentence", (title) => {
    const answers = said.get(title) ?? [];
    expect(answers.length).toBeGreaterThan(7);
    for (const [target, { status, out, err }] of answers) {
      const { what } = target;
      expect([what, status === 1 || status === 2, out], err).toEqual([what, true, ""]);
      const words = isInPlace(title) ? target.saidInPlace : target.said;
      expect(err, what).toMatch(title === "new" ? new RegExp(`${words.source}|: is there already`) : words);
      expect(err.split("\n").length, err).toBe(1);
    }
  });

  it("changes nothing where it cannot write", () => {
    expect(before.length).toBeGreaterThan(WRITERS.length * TARGETS.length);
    expect(after).toEqual(before);
  });
});
