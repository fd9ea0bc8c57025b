/*
 * What a roll-up takes of the processors, how much memory, and what the next one takes after one change. Each figure is the
 * middle one of several pairs, so that what else the machine does falls on both sides alike.
 *
 * node build/src/tools/bench/bench-rollup.js [files] [pairs]
 */
import { mkdtemp, readFile, rm, utimes } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Finding } from "../../workbook/finding.js";
import type { RollUp } from "../../workbook/rollup/index.js";
import { type MadeTruth, makeJobs } from "../rollup/make-jobs.js";
import type { BenchRow } from "./bench-row.js";
import { COMMAND } from "./bundled-command.js";
import { type MeasuredProcess, measuredProcess } from "./measured-process.js";

const ROWS = 200;
const BAD_EVERY = 20;
const MOST_MEGABYTES = 300;
const PAIRS = 3;
/** Exact digits, NIST Special Publication 811, appendix B.8. */
const LPS_PER_CFM = 0.4719474432;
/** Sums of a few hundred thousand numbers in another order differ by less. */
const ROUNDING = 1e-11;

const LOOP = fileURLToPath(new URL("./plain-loop.js", import.meta.url));
const TEMPLATE = new URL("../../../../templates/job-summary.xlsx", import.meta.url);

type Printed = RollUp & { readonly read: number; readonly findings: readonly Finding[] };

/** Ends with 1, because workbooks are left out. */
async function rollUp(
  folder: string,
  ...more: readonly string[]
): Promise<MeasuredProcess & { readonly printed: Printed }> {
  const output = ["-o", join(folder, "summary.xlsx"), "--replace", "--json", ...more];
  const measured = await measuredProcess(
    process.execPath,
    [COMMAND, "rollup", join(folder, "jobs"), ...output],
    [0, 1],
  );
  return { ...measured, printed: JSON.parse(measured.out) as Printed };
}

function isSum(found: number, tenths: MadeTruth["designTenths"]): boolean {
  const made = tenths.ip / 10 + tenths.si / 10 / LPS_PER_CFM;
  return Math.abs(found - made) <= ROUNDING * made;
}

function requireTruth({ jobs, total, findings }: Printed, truth: MadeTruth): void {
  const counts = ["outlets", "compared", "notMeasured", "noDesign", "faulty", "low", "within", "high"] as const;
  const wrong = counts
    .filter((key) => total[key] !== truth[key])
    .map((key) => `${key} ${total[key]}, not ${truth[key]}`);
  if (!isSum(total.measuredCfm, truth.measuredTenths)) wrong.push(`measured ${total.measuredCfm}`);
  if (!isSum(total.designCfm, truth.designTenths)) wrong.push(`design ${total.designCfm}`);
  const leftOut = findings.filter((finding) => finding.leftOut === "workbook").length;
  if (jobs.length !== truth.jobs || jobs.length + leftOut !== truth.files)
    wrong.push(`${jobs.length} jobs, ${leftOut} out`);
  if (wrong.length > 0) throw new Error(`The roll-up is wrong: ${wrong.join("; ")}.`);
}

/** Of the processors; of the clock where the system does not say it. */
function timeOf({ processorSeconds, seconds }: MeasuredProcess): number {
  return processorSeconds ?? seconds;
}

function middle(figures: readonly number[]): number {
  return figures.toSorted((one, other) => one - other)[Math.floor(figures.length / 2)] ?? Number.NaN;
}

/** Compares the roll-up of generated jobs with a plain loop, its memory with its limit, and the next run with the first. */
export async function benchRollUp(files: number, pairs = PAIRS): Promise<readonly BenchRow[]> {
  const folder = await mkdtemp(join(tmpdir(), "vanesheet-bench-"));
  try {
    const jobs = join(folder, "jobs");
    const truth = makeJobs(jobs, new Uint8Array(await readFile(TEMPLATE)), { files, rows: ROWS, badEvery: BAD_EVERY });
    const [firsts, loops, nexts]: [number[], number[], number[]] = [[], [], []];
    let peakMegabytes: number | undefined;
    for (let pair = 0; pair < pairs; pair += 1) {
      const first = await rollUp(folder, "--fresh");
      requireTruth(first.printed, truth);
      const loop = await measuredProcess(process.execPath, [LOOP, jobs]);
      const saved = 1_770_000_000 + pair;
      await utimes(first.printed.jobs[0]?.file ?? "", saved, saved);
      const next = await rollUp(folder);
      requireTruth(next.printed, truth);
      if (next.printed.read !== 1) throw new Error(`The next run read ${next.printed.read} workbooks, not 1.`);
      firsts.push(timeOf(first));
      loops.push(timeOf(loop));
      nexts.push(timeOf(next));
      if (first.peakMegabytes !== undefined) peakMegabytes = Math.max(peakMegabytes ?? 0, first.peakMegabytes);
    }
    const count = files.toLocaleString("en");
    return [
      {
        name: `roll-up of ${count} workbooks, against a plain loop with exceljs`,
        ours: middle(firsts),
        theirs: middle(loops),
        unit: "s",
        target: 0.3,
      },
      {
        name: "the next run after one change, against the first",
        ours: middle(nexts),
        theirs: middle(firsts),
        unit: "s",
        target: 0.08,
      },
      ...(peakMegabytes === undefined
        ? []
        : [
            {
              name: `peak memory of the roll-up of ${count} workbooks, against its limit`,
              ours: peakMegabytes,
              theirs: MOST_MEGABYTES,
              unit: "MB" as const,
              target: 1,
            },
          ]),
    ];
  } finally {
    await rm(folder, { recursive: true });
  }
}

if (process.argv[1]?.endsWith("bench-rollup.js")) {
  for (const { name, ours, theirs, unit, target } of await benchRollUp(
    Number(process.argv[2] ?? 1000),
    Number(process.argv[3] ?? PAIRS),
  )) {
    const figures = `${ours.toPrecision(3)} ${unit} to ${theirs.toPrecision(3)} ${unit}`;
    console.log(`${name}: ${figures}, ratio ${(ours / theirs).toFixed(3)}, target at most ${target}`);
  }
}
