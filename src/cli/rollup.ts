import { readFileSync } from "node:fs";
import { realpath } from "node:fs/promises";
import { availableParallelism } from "node:os";
import { basename, dirname, extname, join } from "node:path";
import type { UnitSystemName } from "../core/index.js";
import { saveWorkbookCopy, zlibCodec } from "../hosts/file/index.js";
import { packageFile } from "../hosts/file/package-file.js";
import { type RolledUpFiles, requireFreePart, rollUpFiles } from "../hosts/file/rollup/index.js";
import { type Finding, hasError, placeOf, sentencesOf } from "../workbook/finding.js";
import { HostError } from "../workbook/host.js";
import { writeReport } from "../workbook/plan-file/index.js";
import {
  compareRollUps,
  type EarlierRollUp,
  earlierFindings,
  type GroupResult,
  type JobFilter,
  leftOutByReason,
  type NameRule,
  type NameVariant,
  type RollUpChanges,
  type RollUpSettings,
  summaryWorkbook,
  USUAL_CALIBRATION_MONTHS,
} from "../workbook/rollup/index.js";
import { WorkbookFileError } from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, UsageError } from "./command.js";
import {
  OUTPUT_OPTIONS,
  type OutputFile,
  outputFile,
  requireEnding,
  requireFree,
  WORKBOOK_ENDING,
} from "./output-file.js";
import { type Report, withProgress } from "./progress.js";
import { onOneLine } from "./shown-controls.js";
import { counted } from "./workbook-report.js";

/** Changed whenever the same workbook would be read otherwise. */
const READING_FORMAT = 7;

/** More threads than this wait for the disk. */
const MOST_WORKERS = 8;

/** A job's workbook takes a hundredth of a second; one that takes so long asks for what nobody needs. Chosen by us. */
const MOST_SECONDS = 60;

interface Outputs {
  readonly summary: OutputFile;
  readonly part: OutputFile | undefined;
  readonly csv: OutputFile | undefined;
  readonly parquet: OutputFile | undefined;
}

function outputs(args: Arguments): Outputs {
  const summary = outputFile(args);
  if (summary === undefined) throw new UsageError("-o SUMMARY.xlsx is missing.");
  requireEnding(summary.path, WORKBOOK_ENDING);
  const table = (option: "csv" | "parquet"): OutputFile | undefined => {
    const path = args.options[option];
    if (typeof path !== "string") return undefined;
    requireEnding(path, `.${option}`);
    return { path, existing: summary.existing };
  };
  const folder = args.options["part"];
  const part = typeof folder === "string" ? { path: folder, existing: summary.existing } : undefined;
  return { summary, part, csv: table("csv"), parquet: table("parquet") };
}

function unitsOf({ options }: Arguments): UnitSystemName {
  const units = options["units"] ?? "ip";
  if (units === "ip" || units === "si") return units;
  throw new UsageError("--units takes ip or si.");
}

function workersOf({ options }: Arguments): number {
  const given = options["workers"];
  if (given === undefined) return Math.min(availableParallelism(), MOST_WORKERS);
  const workers = Number(given);
  if (Number.isInteger(workers) && workers >= 1 && workers <= 64) return workers;
  throw new UsageError("--workers takes a whole number from 1 to 64.");
}

function mostSecondsOf({ options }: Arguments): number {
  const given = options["seconds"];
  if (given === undefined) return MOST_SECONDS;
  const seconds = Number(given);
  if (seconds > 0 && seconds <= 86_400) return seconds;
  throw new UsageError("--seconds takes a number above 0, up to 86400.");
}

const DAY = /^\d{4}-\d{2}-\d{2}$/;

function dayOf({ options }: Arguments, option: "since" | "until"): string | null {
  const day = options[option];
  if (typeof day !== "string") return null;
  const moment = new Date(`${day}T00:00:00Z`);
  if (DAY.test(day) && !Number.isNaN(moment.getTime()) && moment.toISOString().startsWith(day)) return day;
  throw new UsageError(`--${option} takes a day such as 2026-03-31, not “${day}”.`);
}

function filterOf(args: Arguments): JobFilter {
  const text = (option: string) => {
    const given = args.options[option];
    return typeof given === "string" ? given : null;
  };
  const filter = {
    since: dayOf(args, "since"),
    until: dayOf(args, "until"),
    technician: text("technician"),
    job: text("job"),
    customer: text("customer"),
    site: text("site"),
  };
  if (filter.since !== null && filter.until !== null && filter.since > filter.until) {
    throw new UsageError(`--since ${filter.since} is later than --until ${filter.until}.`);
  }
  return filter;
}

function version(): string {
  const { version: release } = JSON.parse(readFileSync(packageFile("package.json"), "utf8")) as { version: string };
  return `${release} ${READING_FORMAT}`;
}

/** The manager's table of names, where one is named. */
async function namesOf({ options }: Arguments): Promise<readonly NameRule[]> {
  const path = options["names"];
  if (typeof path !== "string") return [];
  const { readNames } = await import("../hosts/file/rollup/read-names.js");
  return readNames(path);
}

function settingsOf({ options }: Arguments): Omit<RollUpSettings, "names"> {
  const given = options["calibration-months"];
  const calibrationMonths = given === undefined ? USUAL_CALIBRATION_MONTHS : Number(given);
  if (Number.isInteger(calibrationMonths) && calibrationMonths >= 1 && calibrationMonths <= 120) {
    return { today: today(), calibrationMonths };
  }
  throw new UsageError("--calibration-months takes a whole number from 1 to 120.");
}

/** The day here, ISO 8601. */
function today(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10);
}

/** A roll-up, and what is different from an earlier one where one was named. */
interface Compared extends RolledUpFiles {
  readonly changes: RollUpChanges | null;
}

/** Reads the roll-up that `--compare` names, before anything takes its place. */
async function earlierOf({ options }: Arguments): Promise<EarlierRollUp | null> {
  const path = options["compare"];
  if (typeof path !== "string") return null;
  if (![WORKBOOK_ENDING, ".parquet"].includes(extname(path).toLowerCase())) {
    throw new UsageError(`--compare takes a summary (.xlsx) or a table of outlets (.parquet), not “${path}”.`);
  }
  const { readEarlier } = await import("../hosts/file/rollup/read-earlier.js");
  try {
    return await readEarlier(path);
  } catch (cause) {
    if (!(cause instanceof WorkbookFileError) || cause.code !== "not-found") throw cause;
    throw new HostError(`There is no “${path}” to compare with. Run once without --compare, which writes it.`, {
      cause,
    });
  }
}

async function rollUp(args: Arguments, places: readonly string[], to: Outputs, report: Report): Promise<Compared> {
  const earlier = await earlierOf(args);
  const targets = [to.summary, to.csv, to.parquet].filter((target) => target !== undefined);
  for (const target of targets) await requireFree("", target, "");
  if (to.part !== undefined) await requireFreePart(to.part.path, to.part.existing);
  const own = [to.summary, to.part].flatMap((target) => (target === undefined ? [] : [target.path]));
  const passedOver = new Set(await Promise.all(own.map((path) => realpath(path).catch(() => path))));
  const rolled = await rollUpFiles({
    places,
    passedOver,
    keptIn: join(dirname(to.summary.path), ".vanesheet", `${basename(to.summary.path)}.readings`),
    version: version(),
    isFresh: args.options["fresh"] === true,
    workers: workersOf(args),
    mostSeconds: mostSecondsOf(args),
    filter: filterOf(args),
    settings: { ...settingsOf(args), names: await namesOf(args) },
    report,
  });
  try {
    if (rolled.found === 0) throw new HostError(nothingFound(places, rolled.findings));
    report(1, 1, "writing");
    const about = `${counted(rolled.found, "workbook")} in ${places.join(", ")}, rolled up on ${today()}.`;
    const changes = earlier === null ? null : compareRollUps(earlier, rolled.value, rolled.findings);
    const { calibrationMonths } = settingsOf(args);
    const details = { units: unitsOf(args), about, changes, calibrationMonths };
    const { plan, values } = summaryWorkbook(rolled.value, rolled.findings, details);
    await saveWorkbookCopy(to.summary.path, await writeReport(plan, values, zlibCodec), to.summary.existing);
    if (to.csv !== undefined || to.parquet !== undefined) await writeTables(rolled, to);
    if (to.part !== undefined) await writePartTo(to.part.path, rolled);
    return { ...rolled, changes };
  } finally {
    await rolled.close();
  }
}

/** Their writers are loaded for those who ask for them. */
async function writeTables(rolled: RolledUpFiles, { csv, parquet }: Outputs): Promise<void> {
  const { writeCsv, writeParquet } = await import("../hosts/file/rollup/write-outlets.js");
  if (csv !== undefined) await writeCsv(csv.path, rolled.outlets(), csv.existing);
  if (parquet !== undefined) {
    await writeParquet(parquet.path, rolled.outlets(), earlierFindings(rolled.findings), parquet.existing);
  }
}

async function writePartTo(folder: string, rolled: RolledUpFiles): Promise<void> {
  const { writePart } = await import("../hosts/file/rollup/part-files.js");
  await writePart(folder, rolled.part());
}

function inOneLine(finding: Finding): string {
  const where = [finding.file, placeOf(finding)].filter((part) => part !== "").join(" ");
  return onOneLine(`${where}: ${sentencesOf(finding)}`);
}

function nothingFound(places: readonly string[], findings: readonly Finding[]): string {
  const reasons = findings.map((finding) => ` ${inOneLine(finding)}`);
  return `There is no workbook to read in ${places.join(", ")}, so nothing was written.${reasons.join("")}`;
}

function shownPercent(percent: number | null): string {
  return percent === null ? "not known" : `${percent.toFixed(1)} %`;
}

function totalLine({ compared, percent, withinPercent, notMeasured, noDesign, faulty }: GroupResult): string {
  const left = [
    [notMeasured, "not measured"],
    [noDesign, "without design"],
    [faulty, "faulty"],
  ] as const;
  const rest = left.flatMap(([count, what]) => (count > 0 ? [`${count} ${what}`] : [])).join(", ");
  const others = rest === "" ? "" : ` Besides: ${rest}.`;
  if (compared === 0) return `No outlets to compare.${others}`;
  const judged =
    withinPercent === null ? "no limits to judge them by" : `${shownPercent(withinPercent)} of them within limits`;
  return `${counted(compared, "outlet")} compared: ${shownPercent(percent)} of design, ${judged}.${others}`;
}

/** So many workbooks of a reason are named one by one; the sheet lists every one. */
const MOST_NAMED = 5;

function printLeftOut(findings: readonly Finding[]): void {
  const groups = leftOutByReason(findings);
  if (groups.length === 0) return;
  const files = new Set(groups.flatMap((group) => group.findings.map(({ file }) => file))).size;
  console.log(`${counted(files, "workbook")} left out, whole or in part, for ${counted(groups.length, "reason")}:`);
  for (const { reason, findings: alike } of groups) {
    console.log(`  ${onOneLine(`${alike.length} × ${reason}`)}`);
    for (const finding of alike.slice(0, MOST_NAMED)) console.log(`      ${inOneLine(finding)}`);
    if (alike.length > MOST_NAMED) console.log(`      and ${alike.length - MOST_NAMED} more, on the sheet Left out`);
  }
}

const isMerged = ({ countsAs, jobs }: NameVariant) => countsAs !== null && jobs > 0;

/** So many changes of a kind are named one by one; the sheet Changes lists every one. */
function printSome(title: string, lines: readonly string[]): void {
  if (lines.length === 0) return;
  console.log(`  ${title}: ${lines.length}`);
  for (const line of lines.slice(0, MOST_NAMED)) console.log(`      ${onOneLine(line)}`);
  if (lines.length > MOST_NAMED) console.log(`      and ${lines.length - MOST_NAMED} more, on the sheet Changes`);
}

function printChanges(changes: RollUpChanges, earlier: string): void {
  const { newJobs, changedJobs, goneJobs, newProblems, goneProblems, isNewProblem } = changes;
  const counts = [newJobs, changedJobs, goneJobs, newProblems, goneProblems];
  const isSame = counts.every(({ length }) => length === 0);
  console.log(`Compared with ${earlier}: ${isNewProblem ? "new problems" : isSame ? "as it was" : "as usual"}.`);
  const name = ({ jobNumber, jobName, file }: (typeof newJobs)[number]) =>
    [jobNumber, jobName].filter((part) => part !== "").join(" ") || file;
  const problem = ({ file, place, text }: (typeof newProblems)[number]) =>
    `${[file, place].filter((part) => part !== "").join(" ")}: ${text}`;
  printSome("new problems", newProblems.map(problem));
  printSome("jobs gone", goneJobs.map(name));
  printSome("new jobs", newJobs.map(name));
  printSome(
    "jobs changed",
    changedJobs.map(({ job, changes: details }) => `${name(job)}: ${details.join("; ")}`),
  );
  printSome("problems gone", goneProblems.map(problem));
}

function print(
  { value, findings, found, read, inParts }: RolledUpFiles,
  { summary, part, csv, parquet }: Outputs,
): void {
  const asTheyWere = `${found - read - inParts} as they were in the last run`;
  const ofParts = inParts > 0 ? `, ${inParts} from parts` : "";
  console.log(`${counted(found, "workbook")} found, ${read} read, ${asTheyWere}${ofParts}.`);
  console.log(`${counted(value.jobs.length, "job")}. ${totalLine(value.total)}`);
  const [alike, merged] = [value.names.filter(({ like }) => like !== null), value.names.filter(isMerged)];
  if (merged.length > 0) console.log(`${counted(merged.length, "name")} merged by the table of names.`);
  if (alike.length > 0) console.log(`${counted(alike.length, "name")} like another, on the sheet Names.`);
  if (value.filteredOut > 0) console.log(`${counted(value.filteredOut, "job")} not among those asked for.`);
  printLeftOut(findings);
  const lists = findings.filter(({ leftOut }) => leftOut === "list");
  if (lists.length > 0) console.log(`${counted(lists.length, "reason")} why a list of outlets is left out:`);
  for (const finding of lists) console.log(`  ${inOneLine(finding)}`);
  const others = findings.filter(({ leftOut }) => leftOut !== "workbook").length;
  if (others > 0) console.log(`${counted(others, "finding")} in workbooks that count, on the sheet Findings.`);
  const written = [summary, part, csv, parquet].flatMap((target) => (target === undefined ? [] : [target.path]));
  console.log(`Wrote ${written.join(", ")}.`);
}

export const rollupCommand: Command = {
  usage:
    "FOLDER… -o SUMMARY.xlsx [--csv FILE] [--parquet FILE] [--part FOLDER] [--compare FILE] [--replace] [--units ip|si] [--workers N] [--seconds N] [--fresh] [--json]",
  help: [
    "Rolls many jobs up: reads every list of outlets and every traverse of the workbooks in the folders and the",
    "folders within, and writes one workbook with the jobs, technicians, months and kinds of outlets.",
    "A workbook that cannot be read stops nothing; it is listed with the reason. The newest workbook of a job counts.",
    "",
    "  -o SUMMARY.xlsx  the summary; --replace lets it take the place of the one before",
    "  --csv FILE       also writes one row per outlet, --parquet FILE the same for query engines (docs/rollup.md)",
    "  --part FOLDER    keeps what was read as tables, which another run takes beside folders: rollup north.part south …",
    "  --units ip|si    units of the summary: cfm, which is usual, or L/s; jobs in either add up",
    "  --since DAY, --until DAY   jobs whose last readings are of these days, such as 2026-03-31",
    "  --technician NAME, --job NUMBER, --customer NAME, --site PLACE   of these alone; * is any letters",
    "  --compare FILE   what is new, changed and gone since an earlier summary or --parquet FILE, read before it is replaced",
    "  --calibration-months N   how long a calibration holds, 12 if not said",
    "  --names FILE     a table (.csv, .xlsx) of names that count as one: kind, found, counts as (docs/rollup.md)",
    "  --workers N      how many workbooks are read at a time",
    "  --seconds N      gives a workbook up after so long, 60 if not said",
    "  --fresh          reads every workbook anew",
    "  --json           prints the results as data",
    "",
    "What was read is kept in .vanesheet beside the summary: a run that was cut off goes on where it stopped, and the",
    "next run reads only what changed. Ends with status 1 when a workbook, a list or an outlet is left out.",
    "With --compare: 0 when all is as usual, 3 when there is a new problem or a job is gone.",
  ],
  options: {
    ...OUTPUT_OPTIONS,
    csv: { type: "string" },
    parquet: { type: "string" },
    units: { type: "string" },
    workers: { type: "string" },
    seconds: { type: "string" },
    since: { type: "string" },
    until: { type: "string" },
    technician: { type: "string" },
    job: { type: "string" },
    customer: { type: "string" },
    site: { type: "string" },
    compare: { type: "string" },
    part: { type: "string" },
    names: { type: "string" },
    "calibration-months": { type: "string" },
    fresh: { type: "boolean" },
    json: { type: "boolean" },
  },
  async run(args) {
    const { positionals: places } = args;
    if (places.length === 0) throw new UsageError("FOLDER is missing.");
    const to = outputs(args);
    unitsOf(args);
    workersOf(args);
    mostSecondsOf(args);
    filterOf(args);
    settingsOf(args);
    const rolled = await withProgress((report) => rollUp(args, places, to, report));
    if (args.options["json"] === true) {
      const { value, findings, found, read, changes } = rolled;
      console.log(JSON.stringify({ found, read, ...value, findings, ...(changes === null ? {} : { changes }) }));
    } else {
      print(rolled, to);
      if (rolled.changes !== null) printChanges(rolled.changes, String(args.options["compare"]));
    }
    if (rolled.changes !== null) return rolled.changes.isNewProblem ? EXIT.newProblem : EXIT.done;
    return hasError(rolled.findings) ? EXIT.found : EXIT.done;
  },
};
