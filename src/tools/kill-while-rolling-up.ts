/*
 * Kills a roll-up at random moments, goes on with it each time, and compares its end with a roll-up that nobody disturbed.
 *
 * node build/src/tools/kill-while-rolling-up.js [times] [files]
 */
import { spawn } from "node:child_process";
import { randomInt } from "node:crypto";
import { once } from "node:events";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { makeJobs } from "./rollup/make-jobs.js";

const COMMAND = fileURLToPath(new URL("../../../src/cli/vanesheet.mjs", import.meta.url));
const TEMPLATE = new URL("../../../templates/job-summary.xlsx", import.meta.url);

interface Ended {
  readonly seconds: number;
  readonly printed: { readonly read: number } & Readonly<Record<string, unknown>>;
}

function start(folder: string, summary: string) {
  const args = [COMMAND, "rollup", "jobs", "-o", summary, "--replace", "--json"];
  return spawn(process.execPath, args, { cwd: folder, stdio: ["ignore", "pipe", "inherit"] });
}

async function toTheEnd(folder: string, summary: string): Promise<Ended> {
  const begun = performance.now();
  const child = start(folder, summary);
  const said: Buffer[] = [];
  child.stdout.on("data", (piece: Buffer) => said.push(piece));
  await once(child, "close");
  return { seconds: (performance.now() - begun) / 1000, printed: JSON.parse(Buffer.concat(said).toString()) };
}

const [times = 10, files = 200] = process.argv.slice(2).map(Number);
const folder = await mkdtemp(join(tmpdir(), "vanesheet-kill-"));
try {
  const template = new Uint8Array(await readFile(TEMPLATE));
  makeJobs(join(folder, "jobs"), template, { files, rows: 100, badEvery: 10 });
  const whole = await toTheEnd(folder, "whole.xlsx");
  console.log(`${files} workbooks in ${whole.seconds.toFixed(1)} s undisturbed`);
  for (let time = 1; time <= times; time += 1) {
    const child = start(folder, "killed.xlsx");
    const afterMs = randomInt(50, Math.ceil((whole.seconds * 1000) / 3));
    await setTimeout(afterMs);
    child.kill("SIGKILL");
    await once(child, "close");
    console.log(`killed after ${afterMs} ms`);
  }
  const resumed = await toTheEnd(folder, "killed.xlsx");
  console.log(`the last run read ${resumed.printed.read} of ${files} workbooks`);
  const same = JSON.stringify({ ...resumed.printed, read: 0 }) === JSON.stringify({ ...whole.printed, read: 0 });
  const sheets = (await readFile(join(folder, "killed.xlsx"))).equals(await readFile(join(folder, "whole.xlsx")));
  console.log(same && sheets ? "The same, to the last byte of the summary." : "NOT the same.");
  if (!(same && sheets)) process.exitCode = 1;
} finally {
  await rm(folder, { recursive: true });
}
