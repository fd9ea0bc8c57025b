import { mkdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { UnitSystemName } from "../../core/index.js";
import { BAD_WORKBOOKS } from "./bad-workbooks.js";
import { madeRow } from "./made-outlet.js";
import { type MadeRow, makeSummaryWriter } from "./summary-workbook.js";

/** What some of the outlets that were made come to; sums in tenths of a unit, whole numbers, apart by unit. */
export interface MadeGroup {
  compared: number;
  low: number;
  within: number;
  high: number;
  readonly measuredTenths: Record<UnitSystemName, number>;
  readonly designTenths: Record<UnitSystemName, number>;
}

/** By what the outlets are grouped. */
export type MadeGrouping = "technician" | "month" | "instrument" | "system";

/** What the jobs that were made come to, counted while they were made and not by the roll-up. */
export interface MadeTruth {
  readonly files: number;
  /** Files that cannot be read, by kind. */
  readonly bad: Readonly<Record<string, number>>;
  /** Earlier revisions of a job, which must not count. */
  readonly revisions: number;
  readonly jobs: number;
  readonly outlets: number;
  readonly compared: number;
  readonly notMeasured: number;
  readonly noDesign: number;
  readonly faulty: number;
  readonly low: number;
  readonly within: number;
  readonly high: number;
  /** Sums of those compared, in tenths of a unit so that they are whole numbers, apart by unit. */
  readonly measuredTenths: Readonly<Record<UnitSystemName, number>>;
  readonly designTenths: Readonly<Record<UnitSystemName, number>>;
  /** By name; a system with the number of its job, an instrument by its serial number. */
  readonly groups: Readonly<Record<MadeGrouping, Readonly<Record<string, MadeGroup>>>>;
}

export interface MadeJobs {
  readonly files: number;
  readonly rows: number;
  /** One file in so many is bad; the kinds take turns. */
  readonly badEvery: number;
}

/** One good job in so many is there in an earlier revision too. */
const REVISION_EVERY = 40;
const FIRST_DAY = 45_292;
const TECHNICIANS = 12;
const INSTRUMENTS = 7;
/** Days since 1900 as spreadsheet programs count them. */
const DAY_ZERO_MS = Date.UTC(1899, 11, 30);
const DAY_MS = 86_400_000;

function monthOf(day: number): string {
  return new Date(DAY_ZERO_MS + day * DAY_MS).toISOString().slice(0, 7);
}
const KINDS = ["supply", "supply", "supply", "return", "exhaust", "outside air"] as const;
/** In percent, as the template has them. */
const LIMITS = { minus: 10, plus: 10, outsideMinus: 0, outsidePlus: 10 };

/** The generator that Park and Miller published in 1988; its numbers are the same on every machine. */
function random(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % below;
  };
}

/** One outlet that has to be compared. */
interface ComparedOutlet {
  readonly system: string;
  readonly verdict: "low" | "within" | "high";
  readonly measuredTenths: number;
  readonly designTenths: number;
}

interface MadeOutlets {
  readonly rows: readonly MadeRow[];
  readonly compared: readonly ComparedOutlet[];
  readonly truth: Omit<
    MadeTruth,
    "files" | "bad" | "revisions" | "jobs" | "measuredTenths" | "designTenths" | "groups"
  > & {
    readonly measuredTenths: number;
    readonly designTenths: number;
  };
}

function makeOutlets(
  count: number,
  job: Readonly<Record<string, number | string>>,
  units: UnitSystemName,
  next: (below: number) => number,
): MadeOutlets {
  const truth = {
    outlets: 0,
    compared: 0,
    notMeasured: 0,
    noDesign: 0,
    faulty: 0,
    low: 0,
    within: 0,
    high: 0,
    measuredTenths: 0,
    designTenths: 0,
  };
  const compared: ComparedOutlet[] = [];
  const rows = Array.from({ length: count }, (_, index): MadeRow => {
    const kind = KINDS[next(KINDS.length)] ?? "supply";
    const designTenths = 50 * (10 + next(190));
    const beforeTenths = Math.round((designTenths * (60 + next(60))) / 100);
    const afterTenths = Math.round((designTenths * (840 + next(320))) / 1000);
    const fate = next(200);
    const lastTenths = fate === 3 ? beforeTenths : afterTenths;
    const outside = kind === "outside air";
    const [minus, plus] = outside ? [LIMITS.outsideMinus, LIMITS.outsidePlus] : [LIMITS.minus, LIMITS.plus];
    // Whole numbers on both sides, so that an airflow on the limit is on it exactly.
    const isLow = lastTenths * 100 < designTenths * (100 - minus);
    const isHigh = lastTenths * 100 > designTenths * (100 + plus);
    truth.outlets += 1;
    const isCompared = fate > 2;
    if (fate === 0) truth.notMeasured += 1;
    if (fate === 1) truth.noDesign += 1;
    if (fate === 2) truth.faulty += 1;
    const assumed = next(2) === 0 ? "yes" : "no";
    const system = `AHU-${1 + next(4)}`;
    const verdict = isLow ? "low" : isHigh ? "high" : "within";
    if (isCompared) {
      compared.push({ system, verdict, measuredTenths: lastTenths, designTenths });
      truth.compared += 1;
      truth[verdict] += 1;
      truth.measuredTenths += lastTenths;
      truth.designTenths += designTenths;
    }
    return madeRow({
      ...job,
      system,
      room: `Room ${100 + Math.floor(index / 4)}`,
      outlet: `S-${index + 1}`,
      kind,
      shape: "rectangular",
      width: units === "ip" ? 12 : 300,
      height: units === "ip" ? 6 : 150,
      factor: 0.75,
      assumed,
      units,
      design: fate === 1 ? null : designTenths / 10,
      before: fate === 0 ? null : beforeTenths / 10,
      after: fate === 0 || fate === 3 ? null : fate === 2 ? "blocked" : afterTenths / 10,
      plusMinus: fate === 0 ? null : Math.round(lastTenths / 10) / 10,
      percent: isCompared ? (lastTenths / designTenths) * 100 : null,
      verdict: isCompared ? verdict : null,
      note: next(10) === 0 ? "damper half open" : null,
    });
  });
  return { rows, compared, truth };
}

function addTo(
  groups: Record<string, MadeGroup>,
  name: string,
  { verdict, measuredTenths, designTenths }: ComparedOutlet,
  units: UnitSystemName,
): void {
  groups[name] ??= {
    compared: 0,
    low: 0,
    within: 0,
    high: 0,
    measuredTenths: { ip: 0, si: 0 },
    designTenths: { ip: 0, si: 0 },
  };
  const group = groups[name];
  group.compared += 1;
  group[verdict] += 1;
  group.measuredTenths[units] += measuredTenths;
  group.designTenths[units] += designTenths;
}

/**
 * Makes a folder of job workbooks as people would have filled them, in folders by month, with bad files and earlier
 * revisions among them. Everything in them is invented.
 *
 * @param template - The bytes of the job summary template
 * @returns What they come to, counted apart from the roll-up
 */
export function makeJobs(folder: string, template: Uint8Array, { files, rows, badEvery }: MadeJobs): MadeTruth {
  const write = makeSummaryWriter(template);
  const next = random(20_260_101);
  const kinds = Object.entries(BAD_WORKBOOKS);
  const bad: Record<string, number> = Object.fromEntries(kinds.map(([kind]) => [kind, 0]));
  const counts = { outlets: 0, compared: 0, notMeasured: 0, noDesign: 0, faulty: 0, low: 0, within: 0, high: 0 };
  const measuredTenths = { ip: 0, si: 0 };
  const designTenths = { ip: 0, si: 0 };
  const groups: Record<MadeGrouping, Record<string, MadeGroup>> = {
    technician: {},
    month: {},
    instrument: {},
    system: {},
  };
  let [jobs, revisions, badCount] = [0, 0, 0];
  for (let file = 0; file < files; file += 1) {
    const number = `J-${String(1001 + file)}`;
    const units = file % 4 === 3 ? "si" : "ip";
    const date = FIRST_DAY + next(700);
    const technician = `Technician ${String.fromCharCode(65 + next(TECHNICIANS))}`;
    const instrument = next(INSTRUMENTS);
    const serial = `VM-${1040 + instrument}`;
    const isRevision = file % REVISION_EVERY === REVISION_EVERY / 4;
    const job = { jobId: number, jobName: `Invented building ${file + 1}`, date, technician };
    const made = makeOutlets(rows, job, units, next);
    const details = {
      Job_Id: number,
      Job_Name: job.jobName,
      Job_Date: date,
      Job_Technician: technician,
      Job_Units: units,
      Job_Instrument: `Rotating vane, model ${1 + (instrument % 3)}`,
      Job_InstrumentSerial: serial,
      // Half a year to two years before the first of the jobs: some are out of date.
      Job_InstrumentCalibrated: FIRST_DAY - 180 + 60 * instrument,
    };
    const bytes = write({ details, rows: made.rows });
    const into = join(folder, `month ${String(1 + (file % 12)).padStart(2, "0")}`);
    mkdirSync(into, { recursive: true });
    const path = join(into, `job ${String(file + 1).padStart(5, "0")}.xlsx`);
    if (file % badEvery === badEvery - 1) {
      const [kind, spoil] = kinds[badCount % kinds.length] ?? ["empty", () => new Uint8Array()];
      badCount += 1;
      bad[kind] = (bad[kind] ?? 0) + 1;
      writeFileSync(path, spoil(bytes));
    } else {
      writeFileSync(path, bytes);
      jobs += 1;
      for (const key of Object.keys(counts) as (keyof typeof counts)[]) counts[key] += made.truth[key];
      measuredTenths[units] += made.truth.measuredTenths;
      designTenths[units] += made.truth.designTenths;
      for (const outlet of made.compared) {
        addTo(groups.technician, technician, outlet, units);
        addTo(groups.month, monthOf(date), outlet, units);
        addTo(groups.instrument, serial, outlet, units);
        addTo(groups.system, `${number} ${outlet.system}`, outlet, units);
      }
      if (isRevision && file + 1 < files) {
        const earlier = makeOutlets(rows, { ...job, date: date - 30 }, units, next);
        const revision = write({ details: { ...details, Job_Date: date - 30 }, rows: earlier.rows });
        file += 1;
        revisions += 1;
        writeFileSync(join(into, `job ${String(file + 1).padStart(5, "0")} first.xlsx`), revision);
      }
    }
    utimesSync(path, 1_760_000_000 + file, 1_760_000_000 + file);
  }
  return { files, bad, revisions, jobs, ...counts, measuredTenths, designTenths, groups };
}

if (process.argv[1]?.endsWith("make-jobs.js")) {
  const [folder = "", files = "1000", rows = "200"] = process.argv.slice(2);
  const template = new Uint8Array(readFileSync("templates/job-summary.xlsx"));
  console.log(
    JSON.stringify(makeJobs(folder, template, { files: Number(files), rows: Number(rows), badEvery: 20 }), null, 2),
  );
}
