import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { BenchRow } from "./bench-row.js";
import { COMMAND } from "./bundled-command.js";
import { flowWorkbook } from "./flow-workbook.js";

const RUNS = 15;
const ROWS = 300;

interface Started {
  readonly name: string;
  /** What Node is given to run. */
  readonly args: readonly string[];
  /** Times a Node that does nothing, at most. */
  readonly target: number;
}

/** Milliseconds from start to end of each Node process, the median of many runs in turns. */
function milliseconds(each: readonly (readonly string[])[]): readonly number[] {
  const times = each.map((): number[] => []);
  for (let run = 0; run < RUNS; run += 1) {
    each.forEach((args, index) => {
      const start = performance.now();
      const { status } = spawnSync(process.execPath, [...args], { stdio: "ignore" });
      if (status !== 0) throw new Error(`node ${args.join(" ")} ended with ${status}.`);
      times[index]?.push(performance.now() - start);
    });
  }
  return times.map((runs) => runs.sort((a, b) => a - b)[Math.floor(RUNS / 2)] ?? Number.NaN);
}

/** Compares what the command line takes from its start to its end with what Node itself takes to do nothing. */
export function benchStartup(): readonly BenchRow[] {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-start-"));
  try {
    const file = join(folder, "flow.xlsx");
    writeFileSync(file, flowWorkbook(ROWS));
    const formula = "=VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)";
    const started: readonly Started[] = [
      { name: "vanesheet --version", args: ["--version"], target: 1.2 },
      { name: "vanesheet eval of one formula", args: ["eval", formula], target: 2.5 },
      {
        name: `vanesheet calc of ${ROWS} rows of four plain formulas`,
        args: ["calc", file, "-o", join(folder, "done.xlsx"), "--replace"],
        target: 3.5,
      },
    ];
    const [bare = Number.NaN, ...ours] = milliseconds([["-e", "0"], ...started.map(({ args }) => [COMMAND, ...args])]);
    return started.map(({ name, target }, index) => ({
      name: `${name}, against node -e 0`,
      ours: ours[index] ?? Number.NaN,
      theirs: bare,
      unit: "ms",
      target,
    }));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
