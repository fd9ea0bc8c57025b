import { spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import {
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  rmSync,
} from "node:fs";
import { constants, tmpdir } from "node:os";
import { join, relative, resolve } from "node:path";
import type { WritingCommand } from "./writing-commands.js";

/** What may go wrong at a call: an error of the disk, a full disk with or without half a write, a signal. */
export const FAULTS = {
  "the disk is full": "full",
  "the disk is full in the middle of a write": "torn",
  "permission denied": String(constants.errno.EACCES),
  "the disk fails": String(constants.errno.EIO),
  "Ctrl-C": "interrupt",
  killed: "kill",
  "killed in the middle of a write": "cut",
} as const;
export type Fault = keyof typeof FAULTS;

const isKill = (fault: Fault) => fault.startsWith("killed");

const firstThere = (...paths: readonly string[]) =>
  paths.map((path) => resolve(import.meta.dirname, path)).find(existsSync) ?? "";
/** The same files, whether this one runs as it is written or compiled, in build/tests/hostile/faults. */
const COMMAND = firstThere("../../../src/cli/vanesheet.mjs", "../../../../src/cli/vanesheet.mjs");
const SHIM_SOURCE = firstThere("fail-at-call.c", "../../../../tests/hostile/faults/fail-at-call.c");

/**
 * Builds what lets a call fail.
 *
 * @returns The library; undefined where this machine has no C compiler or is no Linux
 */
export function builtShim(folder: string): string | undefined {
  const shim = join(folder, "fail-at-call.so");
  const { status } = spawnSync("cc", ["-shared", "-fPIC", "-O1", "-o", shim, SHIM_SOURCE, "-ldl"]);
  return process.platform === "linux" && status === 0 ? shim : undefined;
}

interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly said: string;
  /** The calls that changed the folder, in their order: a name and a path each. */
  readonly calls: readonly string[];
}

/** A fault at a call, by its number, or a signal at a moment. */
export type Hit =
  | { readonly fault: Fault; readonly at: number }
  | { readonly fault: "Ctrl-C" | "killed"; readonly afterMs: number };

/** Every file below a folder: its bytes, where a link leads, or that it is a folder. */
type State = ReadonlyMap<string, string>;

const RUN_ID = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;

const isPartTable = (name: string) => /\.part\/.*\.parquet$/.test(name);
const runIdIn = (bytes: string) => bytes.match(RUN_ID)?.at(-1);

/**
 * The tables of a part hold the id of the run that wrote them, so that they differ from run to run; here they are told
 * apart by run alone: the one before is the first, others follow in the order in which they are met.
 */
function stateOf(folder: string, runBefore: string | undefined): State {
  const ids = new Map<string, string>([[runBefore ?? "", "run 0"]]);
  const state = new Map<string, string>();
  const look = (path: string) => {
    const name = relative(folder, path);
    const stats = lstatSync(path);
    if (stats.isSymbolicLink()) state.set(name, `-> ${readlinkSync(path)}`);
    else if (stats.isDirectory()) {
      if (name !== "") state.set(name, "folder");
      for (const entry of readdirSync(path).toSorted()) look(join(path, entry));
    } else {
      const bytes = readFileSync(path, "latin1");
      const id = isPartTable(name) ? runIdIn(bytes) : undefined;
      state.set(name, id === undefined ? bytes : (ids.get(id) ?? added(ids, id)));
    }
  };
  look(folder);
  return state;
}

function added(ids: Map<string, string>, id: string): string {
  ids.set(id, `run ${ids.size}`);
  return ids.get(id) ?? "";
}

/** The run that wrote the part of a folder; undefined where there is none. */
function runOf(folder: string): string | undefined {
  const table = readdirSync(folder, { recursive: true, encoding: "utf8" }).find(isPartTable);
  return table === undefined ? undefined : runIdIn(readFileSync(join(folder, table), "latin1"));
}

/** What a roll-up keeps from run to run; it is there for the next run, and no result. */
const isKept = (name: string) => name === ".vanesheet" || /^\.vanesheet\/[^/]+\.readings$/.test(name);

async function ran(
  shim: string,
  folder: string,
  args: readonly string[],
  { hasNoLinks }: WritingCommand,
  hit?: Hit,
): Promise<Ended> {
  const log = `${folder}.log`;
  rmSync(log, { force: true });
  const child = spawn(process.execPath, [COMMAND, ...args], {
    cwd: folder,
    stdio: ["ignore", "pipe", "pipe"],
    env: {
      ...process.env,
      LD_PRELOAD: shim,
      FAULT_FOLDER: folder,
      FAULT_LOG: log,
      ...(hit === undefined || "afterMs" in hit
        ? { FAULT_AT: "0" }
        : { FAULT_AT: String(hit.at), FAULT_KIND: FAULTS[hit.fault] }),
      ...(hasNoLinks === true ? { FAULT_LINKS: "none" } : {}),
    },
  });
  const said: Buffer[] = [];
  child.stdout.on("data", (piece: Buffer) => said.push(piece));
  child.stderr.on("data", (piece: Buffer) => said.push(piece));
  const timer =
    hit !== undefined && "afterMs" in hit
      ? setTimeout(() => child.kill(hit.fault === "killed" ? "SIGKILL" : "SIGINT"), hit.afterMs)
      : undefined;
  const [status, signal] = (await once(child, "close")) as [number | null, NodeJS.Signals | null];
  clearTimeout(timer);
  const calls = existsSync(log) ? readFileSync(log, "utf8").trimEnd().split("\n") : [];
  rmSync(log, { force: true });
  return {
    status,
    signal,
    said: Buffer.concat(said).toString(),
    calls: calls.map((line) => line.replace(/^\d+ /, "")),
  };
}

/** Calls that need room on the disk, and so fail on a full one. */
const takesRoom = (call: string) => /^(?:write|open|mkdir) /.test(call);

/** The ways in which a call may go wrong that differ from one another. */
export function hitsOn(calls: readonly string[], faults: readonly Fault[]): readonly Hit[] {
  return calls.flatMap((call, index) =>
    faults
      .filter((fault) => {
        if (fault.includes("in the middle")) return call.startsWith("write ");
        if (fault === "the disk is full") return takesRoom(call);
        return fault !== "permission denied" || !call.startsWith("write ");
      })
      .map((fault) => ({ fault, at: index + 1 })),
  );
}

/** A command with its folder laid out, and what it does undisturbed. */
export interface Prepared {
  readonly command: WritingCommand;
  readonly laidOut: string;
  readonly before: State;
  readonly runBefore: string | undefined;
  readonly whole: State;
  readonly status: number | null;
  readonly calls: readonly string[];
  readonly durationMs: number;
}

/** Lays a command's folder out and runs it undisturbed. */
export async function prepared(shim: string, command: WritingCommand): Promise<Prepared> {
  const base = realpathSync(mkdtempSync(join(tmpdir(), "fault-")));
  const laidOut = join(base, "before");
  mkdirSync(laidOut);
  await command.prepare(laidOut, async (...args) => {
    const { status, said } = await ran(shim, laidOut, args, command);
    if (status === null || status > 1) throw new Error(`${args.join(" ")} ended with ${status}: ${said}`);
  });
  const folder = copied(laidOut, join(base, "whole"));
  const begun = performance.now();
  const { status, said, calls } = await ran(shim, folder, command.args, command);
  const durationMs = performance.now() - begun;
  if (status === null || status > 1 || calls.length < 3) throw new Error(`${command.title}: ${status}: ${said}`);
  const runBefore = runOf(laidOut);
  const [before, whole] = [stateOf(laidOut, runBefore), stateOf(folder, runBefore)];
  return { command, laidOut, before, runBefore, whole, status, calls, durationMs };
}

/** A folder with links that stay what they are: names of one file stay names of one file. */
function copied(from: string, to: string): string {
  if (process.platform === "linux") spawnSync("cp", ["-a", from, to]);
  else cpSync(from, to, { recursive: true, verbatimSymlinks: true });
  return to;
}

export function cleared({ laidOut }: Prepared): void {
  rmSync(resolve(laidOut, ".."), { recursive: true, force: true });
}

/** The marks of a dump of the runtime, which is no message. */
const NOT_WORDS = /\bat .*\.(?:js|ts|mjs):\d|TypeError|RangeError|undefined|Node\.js v/;

/** Lets one call go wrong, or ends the command at a moment, and says what is wrong with what is left; nothing where all is well. */
export async function faultsAfter(shim: string, of: Prepared, hit: Hit): Promise<readonly string[]> {
  const { command, laidOut, before, whole } = of;
  const folder = copied(laidOut, join(resolve(laidOut, ".."), "tried"));
  try {
    const ended = await ran(shim, folder, command.args, command, hit);
    const left = stateOf(folder, of.runBefore);
    const at = "at" in hit ? hit.at : ended.calls.length;
    const failing = ended.calls[at - 1] ?? "";
    // Where the removal itself is refused or the process is no more, the next run has to clear up.
    const mayLeave = isKill(hit.fault) || failing.startsWith("unlink");
    // Without links a free name is claimed by an empty file, which the next run takes away from a process that is killed then.
    const mayClaim = command.hasNoLinks === true && isKill(hit.fault);
    const faults = [
      ...lost(before, whole, left).filter((one) => !(mayClaim && one.endsWith(CLAIMED))),
      ...(mayLeave ? [] : leftovers(before, whole, left)),
      ...(isKill(hit.fault) ? [] : ofTwoRuns(whole, left)),
      ...toldWrongly(of, hit, ended, left),
    ];
    // What left nothing behind has nothing to be brought in order.
    if (!mayLeave && faults.length === 0 && hit.fault !== "the disk is full in the middle of a write") return [];
    const next = await ran(shim, folder, command.again, command);
    const end = stateOf(folder, of.runBefore);
    if (next.status === null || next.status > 1) faults.push(`the next run ended with ${next.status}: ${next.said}`);
    faults.push(
      ...leftovers(new Map([...before, ...extra(command)]), whole, end).map((one) => `after the next run ${one}`),
    );
    if (mayClaim) {
      faults.push(
        ...lost(before, whole, end).flatMap((one) => (one.endsWith(CLAIMED) ? [`after the next run ${one}`] : [])),
      );
    }
    const isSame = command.again[0] === command.args[0] && command.args[0] !== "new";
    for (const [name, content] of isSame ? whole : []) {
      if (end.get(name) !== content && !isKept(name))
        faults.push(`after the next run ${name} is not what it should be`);
    }
    return faults.map((fault) => `${fault} (call ${at}, ${failing.replace(/\/?[^ ]*\//, "")})`);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The file that the next run writes, where that is another one. */
function extra({ again, args }: WritingCommand): readonly (readonly [string, string])[] {
  return again.filter((word) => !args.includes(word)).map((word) => [word, ""] as const);
}

const CLAIMED = "is empty";

/** A file that was there is the old one or the new one, whole. */
function lost(before: State, whole: State, left: State): readonly string[] {
  const names = new Set([...before.keys(), ...whole.keys()]);
  return [...names].flatMap((name) => {
    if (isKept(name)) return [];
    const [old, now] = [before.get(name), left.get(name)];
    if (now === old || now === whole.get(name)) return [];
    return [`${name} ${now === undefined ? "is gone" : now === "" ? CLAIMED : "is neither old nor new"}`];
  });
}

/** The tables of a part take their places together; only where the process is no more may the reader have to tell. */
function ofTwoRuns(whole: State, left: State): readonly string[] {
  const areNew = [...whole.keys()].filter(isPartTable).map((name) => left.get(name) === whole.get(name));
  return new Set(areNew).size > 1 ? ["the tables of the part are of two runs"] : [];
}

function leftovers(before: State, whole: State, left: State): readonly string[] {
  return [...left.keys()].flatMap((name) =>
    before.has(name) || whole.has(name) || isKept(name) ? [] : [`${name} is left behind`],
  );
}

/** What was said has to be what is so, in words. */
function toldWrongly(
  { command, before, whole, status }: Prepared,
  { fault }: Hit,
  ended: Ended,
  left: State,
): readonly string[] {
  if (NOT_WORDS.test(ended.said)) return [`said what is no word of ours: ${ended.said.slice(0, 300)}`];
  if (isKill(fault)) return [];
  const results = [...whole].filter(([name, content]) => !isKept(name) && before.get(name) !== content);
  const done = results.filter(([name, content]) => left.get(name) === content).length;
  if (ended.signal !== null || ended.status === 130) return [];
  const isWell = ended.status === status && !/could not be|cannot be/.test(ended.said);
  if (isWell && done < results.length) return [`said that all is well, with ${done} of ${results.length} written`];
  if (isWell) return [];
  if (ended.said.trim() === "") return ["failed without a word"];
  // A part that stays as it was looks like one that was written again.
  const isUnclear = [...whole.keys()].some((name) => name.includes(".part/"));
  if ((done === results.length && !isUnclear) || (done > 0 && command.isSeveral !== true)) {
    return [`said that it failed, with ${done} of ${results.length} written: ${ended.said.trim()}`];
  }
  return [];
}
