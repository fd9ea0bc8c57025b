import { readFileSync } from "node:fs";
import { realpath } from "node:fs/promises";
import { basename, dirname, extname, join } from "node:path";
import { saveWorkbookCopy, zlibCodec } from "../hosts/file/index.js";
import { packageFile } from "../hosts/file/package-file.js";
import { type RolledUpFiles, requireFreePart, rollUpFiles } from "../hosts/file/rollup/index.js";
import { type Finding, hasError } from "../workbook/finding.js";
import { HostError } from "../workbook/host.js";
import { writeReport } from "../workbook/plan-file/index.js";
import {
  compareRollUps,
  type EarlierRollUp,
  earlierFindings,
  type RollUpChanges,
  summaryWorkbook,
} from "../workbook/rollup/index.js";
import { WorkbookFileError } from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, UsageError } from "./command.js";
import { OUTPUT_OPTIONS, requireFree, WORKBOOK_ENDING } from "./output-file.js";
import { type Report, withProgress } from "./progress.js";
import {
  filterOf,
  mostSecondsOf,
  namesOf,
  type Outputs,
  outputs,
  settingsOf,
  today,
  unitsOf,
  workersOf,
} from "./rollup-options.js";
import { inOneLine, print, printChanges } from "./rollup-report.js";
import { counted } from "./workbook-report.js";

/** Changed whenever the same workbook would be read otherwise. */
const READING_FORMAT = 8;

function version(): string {
  const { version: release } = JSON.parse(readFileSync(packageFile("package.json"), "utf8")) as { version: string };
  return `${release} ${READING_FORMAT}`;
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

function nothingFound(places: readonly string[], findings: readonly Finding[]): string {
  const reasons = findings.map((finding) => ` ${inOneLine(finding)}`);
  return `There is no workbook to read in ${places.join(", ")}, so nothing was written.${reasons.join("")}`;
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
