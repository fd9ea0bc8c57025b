import { spawnSync } from "node:child_process";
import { join } from "node:path";
import type { BenchRow } from "./bench-row.js";

const RUNS = 15;

/** Milliseconds from start to end of a Node process, the median of many. */
function milliseconds(args: readonly string[]): number {
  const times: number[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, [...args], { stdio: "ignore" });
    if (status !== 0) throw new Error(`node ${args.join(" ")} ended with ${status}.`);
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(RUNS / 2)] ?? Number.NaN;
}

/** Compares what the command line takes to answer with what Node itself takes to start. */
export function benchStartup(repository: string): readonly BenchRow[] {
  const command = join(repository, "src/cli/vanesheet.mjs");
  const bare = milliseconds(["-e", "0"]);
  const formula = "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)";
  return [
    { name: "vanesheet --version, against node -e 0", ours: milliseconds([command, "--version"]), theirs: bare },
    {
      name: "vanesheet eval of one formula, against node -e 0",
      ours: milliseconds([command, "eval", formula]),
      theirs: bare,
    },
  ].map((row) => ({ ...row, unit: "ms", target: null }));
}
