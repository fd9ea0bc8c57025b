/*
 * How long `vanesheet calc` takes for workbooks of outlets, against LibreOffice opening, recalculating and saving the
 * hand-off copy of the same workbook, and against Gnumeric on plain formulas; each in a process of its own, start
 * included, in one run.
 *
 * node build/src/tools/bench/bench-calc.js
 */
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { calculateXlsx } from "../../engine/calculation.js";
import { handoffOf } from "../../workbook/index.js";
import { openWorkbook, patchWorkbook } from "../../xlsx/index.js";
import { findLibreOffice, recalculationSettings } from "../libreoffice.js";
import type { BenchRow } from "./bench-row.js";
import { COMMAND } from "./bundled-command.js";
import { FLOW_FORMULAS, flowWorkbook } from "./flow-workbook.js";
import { type MeasuredProcess, measuredProcess } from "./measured-process.js";
import { outletsWorkbook, ROW_FORMULAS } from "./outlets-workbook.js";

const OUTLETS = [200, 2_000, 20_000] as const;
/** Of so many runs the fastest counts: what else the machine does only ever adds. */
const RUNS = 2;
const MOST_MEGABYTES = 500;
/** Cost of a row at 20,000 outlets over its cost at 2,000, at most. */
const FLAT = 1.5;

/** What ratio to LibreOffice a size may have. */
const TARGETS: Readonly<Record<number, number>> = { 200: 0.3, 2000: 0.45, 20000: 0.45 };

/** Rows of plain formulas, and what ratio to Gnumeric each number of them may have. */
const FLOW_TARGETS: readonly (readonly [rows: number, target: number])[] = [
  [300, 2],
  [20_000, 0.5],
];

interface Compared {
  readonly ours: MeasuredProcess;
  readonly theirs: MeasuredProcess;
}

function handoffCopy(bytes: Uint8Array): Uint8Array {
  const workbook = openWorkbook(bytes, "outlets.xlsx");
  const calculated = openWorkbook(patchWorkbook(workbook, calculateXlsx(workbook).edits), "outlets.xlsx");
  const { edits, values } = handoffOf(calculated);
  if (values.length > 0) throw new Error("A formula became a value, which LibreOffice need not calculate.");
  return patchWorkbook(calculated, edits);
}

function fastest(runs: readonly MeasuredProcess[]): MeasuredProcess {
  const [first, ...rest] = runs;
  if (first === undefined) throw new Error("Nothing was run.");
  const peaks = runs.flatMap(({ peakMegabytes }) => peakMegabytes ?? []);
  const best = rest.reduce((one, other) => (other.seconds < one.seconds ? other : one), first);
  return { ...best, peakMegabytes: peaks.length === 0 ? undefined : Math.max(...peaks) };
}

async function calc(folder: string, file: string, formulas: number): Promise<MeasuredProcess> {
  const args = [COMMAND, "calc", join(folder, file), "-o", join(folder, "done.xlsx"), "--replace"];
  const measured = await measuredProcess(process.execPath, args);
  const all = formulas.toLocaleString("en");
  if (!measured.out.includes(`${all} formulas calculated, ${all} results changed`)) throw new Error(measured.out);
  return measured;
}

async function libreOffice(folder: string, outlets: number): Promise<MeasuredProcess> {
  const profile = `-env:UserInstallation=file://${join(folder, "profile")}`;
  const target = ["--convert-to", "xlsx", "--outdir", join(folder, "out")];
  const args = ["--headless", "--norestore", profile, ...target, join(folder, `${outlets}-handoff.xlsx`)];
  return measuredProcess(findLibreOffice(), args);
}

async function compare(folder: string, outlets: number): Promise<Compared> {
  const bytes = outletsWorkbook(outlets);
  await writeFile(join(folder, `${outlets}.xlsx`), bytes);
  await writeFile(join(folder, `${outlets}-handoff.xlsx`), handoffCopy(bytes));
  const ours: MeasuredProcess[] = [];
  const theirs: MeasuredProcess[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    ours.push(await calc(folder, `${outlets}.xlsx`, outlets * ROW_FORMULAS.length));
    theirs.push(await libreOffice(folder, outlets));
  }
  return { ours: fastest(ours), theirs: fastest(theirs) };
}

/** Compares with Gnumeric on one file, which it recalculates and saves as .xlsx too. */
async function compareFlow(folder: string, rows: number): Promise<Compared> {
  const file = `flow-${rows}.xlsx`;
  await writeFile(join(folder, file), flowWorkbook(rows));
  const type = "--export-type=Gnumeric_Excel:xlsx2";
  const ours: MeasuredProcess[] = [];
  const theirs: MeasuredProcess[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    ours.push(await calc(folder, file, rows * FLOW_FORMULAS.length));
    theirs.push(
      await measuredProcess("ssconvert", ["--recalc", type, join(folder, file), join(folder, "gnumeric.xlsx")]),
    );
  }
  return { ours: fastest(ours), theirs: fastest(theirs) };
}

async function flowRows(folder: string): Promise<readonly BenchRow[]> {
  const found: BenchRow[] = [];
  for (const [rows, target] of FLOW_TARGETS) {
    const { ours, theirs } = await compareFlow(folder, rows);
    const name = `calc of ${rows.toLocaleString("en")} rows of four plain formulas, against Gnumeric on the same file`;
    found.push({ name, ours: ours.seconds, theirs: theirs.seconds, unit: "s", target });
  }
  return found;
}

function timeRow(outlets: number, { ours, theirs }: Compared): BenchRow {
  return {
    name: `calc of ${outlets.toLocaleString("en")} outlets, against LibreOffice on the hand-off copy`,
    ours: ours.seconds,
    theirs: theirs.seconds,
    unit: "s",
    target: TARGETS[outlets] ?? 1,
  };
}

function memoryRows(outlets: number, { ours, theirs }: Compared): readonly BenchRow[] {
  if (ours.peakMegabytes === undefined || theirs.peakMegabytes === undefined) return [];
  const size = outlets.toLocaleString("en");
  const row = { ours: ours.peakMegabytes, unit: "MB" } as const;
  return [
    { ...row, name: `peak memory of calc of ${size} outlets, against its limit`, theirs: MOST_MEGABYTES, target: 1 },
    { ...row, name: "the same, against LibreOffice", theirs: theirs.peakMegabytes, target: 1 },
  ];
}

/**
 * Compares `calc` with LibreOffice at three sizes: time, peak memory, and whether the cost of a row stays the same; and
 * with Gnumeric on plain formulas.
 */
export async function benchCalc(): Promise<readonly BenchRow[]> {
  const folder = await mkdtemp(join(tmpdir(), "vanesheet-bench-"));
  try {
    await mkdir(join(folder, "profile", "user"), { recursive: true });
    await writeFile(join(folder, "profile", "user", "registrymodifications.xcu"), recalculationSettings("always"));
    const [small, middle, large] = OUTLETS;
    const compared = new Map<number, Compared>();
    for (const outlets of OUTLETS) compared.set(outlets, await compare(folder, outlets));
    /** Milliseconds that a row more costs, the start of the process left out. */
    const rowCost = (outlets: number): number => {
      const seconds = (size: number) => compared.get(size)?.ours.seconds ?? Number.NaN;
      return (1000 * (seconds(outlets) - seconds(small))) / (outlets - small);
    };
    const largest = compared.get(large);
    return [
      ...[...compared].map(([outlets, one]) => timeRow(outlets, one)),
      {
        name: `cost of a row at ${large.toLocaleString("en")} outlets, against ${middle.toLocaleString("en")}`,
        ours: rowCost(large),
        theirs: rowCost(middle),
        unit: "ms",
        target: FLAT,
      },
      ...(largest === undefined ? [] : memoryRows(large, largest)),
      ...(await flowRows(folder)),
    ];
  } finally {
    await rm(folder, { recursive: true });
  }
}

if (process.argv[1]?.endsWith("bench-calc.js")) {
  for (const { name, ours, theirs, unit, target } of await benchCalc()) {
    const ratio = (ours / theirs).toFixed(2);
    const wanted = target === null ? "" : `, target at most ${target}`;
    console.log(`${name}: ${ours.toPrecision(3)} ${unit} to ${theirs.toPrecision(3)} ${unit}, ratio ${ratio}${wanted}`);
  }
}
