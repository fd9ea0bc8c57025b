import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { availableParallelism, loadavg, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { HostileInput } from "./hostile-inputs.js";

/** What each call has to keep to, on a machine that does nothing else. */
export const MOST_SECONDS = 5;
export const MOST_MEGABYTES = 500;

/** How much longer a call is waited for before it is ended, on a machine that does nothing else. */
const PATIENCE = 12;

/** On a machine where many programs wait for a processor, each has only its share of the time that passes. */
function longestMs(): number {
  const [waiting = 0] = loadavg();
  return MOST_SECONDS * PATIENCE * Math.max(1, waiting / availableParallelism()) * 1000;
}

/** The same file, whether this one runs as it is written or compiled, in build/tests/hostile. */
const COMMAND =
  [
    resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs"),
    resolve(import.meta.dirname, "../../../src/cli/vanesheet.mjs"),
  ].find(existsSync) ?? "";

/** How one call went. */
export interface Tried {
  readonly title: string;
  readonly status: number | null;
  /** Processor time of the call, which other work on the machine stretches less than the clock's [s]. */
  readonly seconds: number;
  readonly megabytes: number;
  /** The first line that it said. */
  readonly said: string;
  /** What is wrong with it; empty where nothing is. */
  readonly faults: readonly string[];
}

/** Letters that a dump of the runtime, a bare exception or a number that is none begins with. */
const NOT_WORDS =
  /\bat .*\.(?:js|ts|mjs):\d|<--- Last few GCs|RangeError|TypeError|Maximum call stack|Please report|(?:^|[\s:])(?:NaN|Infinity|undefined|null)(?:$|\s)/m;

/**
 * Linux counts into a process's greatest memory what its parent had when it was started, but for the line VmHWM of
 * /proc/self/status, which is of the program alone.
 */
function measureAtExit(): string {
  return [
    "process.on('exit',()=>{const fs=require('fs'),u=process.resourceUsage();let kb=u.maxRSS;",
    "try{kb=Number(/VmHWM:\\s*(\\d+)/.exec(fs.readFileSync('/proc/self/status','utf8'))[1])}catch{}",
    "fs.writeFileSync(process.env.MEASURED_IN,JSON.stringify([(u.userCPUTime+u.systemCPUTime)/1e6,kb/1024]))})",
  ].join("");
}

/** Runs one call in a folder of its own and says what is wrong with how it went. */
export async function tryInput({ title, prepare, mayDo }: HostileInput): Promise<Tried> {
  const folder = mkdtempSync(join(tmpdir(), "hostile-"));
  const measured = `${folder}.json`;
  const preload = `data:text/javascript,${encodeURIComponent(`import{createRequire}from"node:module";const require=createRequire("file:///");${measureAtExit()}`)}`;
  try {
    const child = spawn(process.execPath, ["--import", preload, COMMAND, ...prepare(folder)], {
      cwd: folder,
      stdio: ["ignore", "pipe", "pipe"],
      env: { ...process.env, MEASURED_IN: measured },
    });
    const pieces: Buffer[] = [];
    let length = 0;
    const keep = (piece: Buffer) => {
      length += piece.length;
      if (length < 2 ** 20) pieces.push(piece);
    };
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    const timer = setTimeout(() => child.kill("SIGKILL"), longestMs());
    const [status] = (await once(child, "close")) as [number | null];
    clearTimeout(timer);
    const said = Buffer.concat(pieces).toString();
    const [seconds, megabytes] = status === null ? [Number.NaN, Number.NaN] : measuredIn(measured);
    const faults = [
      ...(status === null ? ["did not end"] : []),
      ...(status !== null && status > 2 ? [`ended with ${status}`] : []),
      ...(status === 0 && !mayDo ? ["was taken for sound"] : []),
      ...(seconds > MOST_SECONDS ? [`took ${seconds.toFixed(1)} s`] : []),
      ...(megabytes > MOST_MEGABYTES ? [`took ${megabytes.toFixed(0)} MB`] : []),
      ...(said.trim() === "" && status !== 0 ? ["said nothing"] : []),
      ...(NOT_WORDS.test(said) ? ["said what is no word of ours"] : []),
      // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
      ...(/[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/.test(said) ? ["printed a control character"] : []),
    ];
    return { title, status, seconds, megabytes, said: said.trim().split("\n")[0]?.slice(0, 160) ?? "", faults };
  } finally {
    rmSync(folder, { recursive: true, force: true });
    rmSync(measured, { force: true });
  }
}

function measuredIn(path: string): readonly [number, number] {
  try {
    return JSON.parse(readFileSync(path, "utf8")) as [number, number];
  } catch {
    // The runtime ended without a word of its own, as it does where its memory is spent.
    return [Number.NaN, Number.NaN];
  }
}
