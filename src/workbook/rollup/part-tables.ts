import { type Cfm, litersPerSecondFromCfm } from "../../core/index.js";
import { type Finding, placeOf } from "../finding.js";
import { jobKey } from "./choose-newest.js";
import { type GroupResult, groupResult } from "./group-result.js";
import type { JobFigures } from "./job-figures.js";
import { leftOutByReason } from "./left-out.js";
import { mergedTally } from "./tally.js";
import type { TidyType } from "./tidy-columns.js";

/** One column of a table of a part. */
export interface PartColumn<T> {
  readonly name: string;
  readonly type: TidyType;
  /** "" where it has none. */
  readonly unit: string;
  readonly meaning: string;
  readonly of: (thing: T) => string | number | boolean | null;
}

/** A job as one workbook of the part has it, whether it counts or a newer workbook does. */
export interface PartJob {
  readonly figures: JobFigures;
  readonly result: GroupResult;
  readonly counts: boolean;
}

/** A job with what it comes to. */
export function partJob(figures: JobFigures, counts: boolean): PartJob {
  const result = groupResult(mergedTally(figures.parts.map(({ tally }) => tally)));
  return { figures, result, counts };
}

function column<T>(
  name: string,
  type: TidyType,
  meaning: string,
  of: (thing: T) => string | number | boolean | null,
  unit = "",
): PartColumn<T> {
  return { name, type, unit, meaning, of: type === "text" ? (thing) => of(thing) || null : of };
}

const count = (name: string, meaning: string, of: (result: GroupResult) => number): PartColumn<PartJob> =>
  column(name, "whole", meaning, ({ result }) => of(result));

const flow = (name: string, meaning: string, of: (result: GroupResult) => Cfm): readonly PartColumn<PartJob>[] => [
  column(`${name}_cfm`, "number", meaning, ({ result }) => of(result), "cfm"),
  column(`${name}_lps`, "number", meaning, ({ result }) => litersPerSecondFromCfm(of(result)), "L/s"),
];

/** The columns of a part's jobs: a row for every job of every workbook that could be read. */
export const JOB_COLUMNS: readonly PartColumn<PartJob>[] = [
  column("file", "text", "The workbook, as its path was found.", ({ figures }) => figures.file),
  column("saved_ms", "number", "When it was saved, since 1970.", ({ figures }) => figures.modifiedMs, "ms"),
  column("sha256", "text", "A digest of its bytes: the same for a copy.", ({ figures }) => figures.contentHash),
  column(
    "job_key",
    "text",
    "The same for all workbooks of one job: its number, or without one its workbook.",
    ({ figures }) => jobKey(figures),
  ),
  column("job_number", "text", "The job as the office files it.", ({ figures }) => figures.jobNumber),
  column("job_name", "text", "What the job is called.", ({ figures }) => figures.jobName),
  column("date", "date", "The day of its last readings.", ({ figures }) => figures.date),
  column("customer", "text", "For whom, where the workbook names it.", ({ figures }) => figures.customer),
  column("site", "text", "Where, where the workbook names it.", ({ figures }) => figures.site),
  column("counts", "boolean", "Whether it is the newest of its job in this part.", ({ counts }) => counts),
  count("outlets", "Outlets listed.", ({ outlets }) => outlets),
  count("compared", "Have a design and an airflow.", ({ compared }) => compared),
  count("not_measured", "Have no airflow.", ({ notMeasured }) => notMeasured),
  count("no_design", "Have an airflow and no design.", ({ noDesign }) => noDesign),
  count("faulty", "Have an unusable value.", ({ faulty }) => faulty),
  count("low", "Below their limits.", ({ low }) => low),
  count("within", "Within their limits.", ({ within }) => within),
  count("high", "Above their limits.", ({ high }) => high),
  count("open", "Neither, by a guarded rule.", ({ open }) => open),
  ...flow("design", "Design of those compared.", ({ designCfm }) => designCfm),
  ...flow("measured", "Airflow of those compared.", ({ measuredCfm }) => measuredCfm),
];

/** The columns of a part's findings. */
export const FINDING_COLUMNS: readonly PartColumn<Finding>[] = [
  column("file", "text", "The workbook.", ({ file }) => file),
  column("kind", "text", "What kind of finding it is.", ({ kind }) => kind),
  column("severity", "text", "error: something is left out or wrong; warning: look at it.", ({ severity }) => severity),
  column("left_out", "text", "What is left out for it: workbook, list, outlet or nothing.", ({ leftOut }) => leftOut),
  column("sheet", "text", "The sheet.", ({ sheet }) => sheet),
  column("cell", "text", "The cell.", ({ cell }) => cell),
  column("problem", "text", "What is wrong.", ({ problem }) => problem),
  column("action", "text", "What to do.", ({ action }) => action),
];

/** A workbook that is left out, with its reason. */
export interface PartLeftOut {
  readonly reason: string;
  readonly finding: Finding;
}

/** The workbooks that a part leaves out, by reason. */
export function partLeftOut(findings: readonly Finding[]): readonly PartLeftOut[] {
  return leftOutByReason(findings).flatMap(({ reason, findings: alike }) =>
    alike.map((finding) => ({ reason, finding })),
  );
}

/** The columns of the workbooks that a part leaves out. */
export const LEFT_OUT_COLUMNS: readonly PartColumn<PartLeftOut>[] = [
  column("reason", "text", "Why, in a sentence that is the same for all alike.", ({ reason }) => reason),
  column("file", "text", "The workbook.", ({ finding }) => finding.file),
  column("place", "text", "Where in it.", ({ finding }) => placeOf(finding)),
  column("problem", "text", "What is wrong.", ({ finding }) => finding.problem),
  column("action", "text", "What to do.", ({ finding }) => finding.action),
];

/** Findings that come of comparing workbooks with each other, which whoever merges parts does anew. */
const OF_SEVERAL: ReadonlySet<Finding["kind"]> = new Set(["superseded", "no-job-number", "day-to-come", "calibration"]);

/** Whether a finding is about one workbook alone. */
export function isOfOneWorkbook({ kind }: Pick<Finding, "kind">): boolean {
  return !OF_SEVERAL.has(kind);
}
