import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { type MadeTruth, makeJobs } from "../../../../src/tools/rollup/make-jobs.js";
import type { Finding } from "../../../../src/workbook/finding.js";
import type { RollUp } from "../../../../src/workbook/rollup/index.js";

const COMMAND = resolve(import.meta.dirname, "../../../../src/cli/vanesheet.mjs");
const TEMPLATE = resolve(import.meta.dirname, "../../../../templates/job-summary.xlsx");

/** What the command prints as data. */
export interface PrintedRollUp extends RollUp {
  readonly found: number;
  readonly read: number;
  readonly findings: readonly Finding[];
}

export interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the command in a folder; after `killAfterMs` it is killed as by a power cut. */
export function runRollUp(cwd: string, args: readonly string[], killAfterMs?: number): Promise<Ran> {
  return new Promise((done, failed) => {
    const child = spawn(process.execPath, [COMMAND, "rollup", ...args], { cwd });
    const [out, err]: [Buffer[], Buffer[]] = [[], []];
    child.stdout.on("data", (piece: Buffer) => out.push(piece));
    child.stderr.on("data", (piece: Buffer) => err.push(piece));
    const timer = killAfterMs === undefined ? undefined : setTimeout(() => child.kill("SIGKILL"), killAfterMs);
    child.on("error", failed);
    child.on("close", (status) => {
      clearTimeout(timer);
      done({ status, out: Buffer.concat(out).toString(), err: Buffer.concat(err).toString() });
    });
  });
}

/** Runs the command and reads what it prints as data. */
export async function rolledUp(cwd: string, args: readonly string[]): Promise<PrintedRollUp> {
  const { out, err, status } = await runRollUp(cwd, [...args, "--json"]);
  if (status === 2 || out === "") throw new Error(`The command ended with ${status}: ${err}`);
  return JSON.parse(out) as PrintedRollUp;
}

/** Makes a folder of small jobs, one file in three bad. */
export function someJobs(folder: string, files: number): MadeTruth {
  return makeJobs(folder, new Uint8Array(readFileSync(TEMPLATE)), { files, rows: 12, badEvery: 3 });
}
