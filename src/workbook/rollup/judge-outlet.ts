import { designDecision, designVerdict, percentOfDesign } from "../../core/index.js";
import { formatAddress } from "../../xlsx/index.js";
import { type Finding, findingAt } from "../finding.js";
import { limitsForKind, type StatedJob } from "../job/index.js";
import type { ShownCell } from "../source/index.js";
import type { OfWorkbook } from "./of-workbook.js";
import type { OutletRecord, OutletVerdict } from "./outlet-record.js";

/** By so many percent a stored percent may differ before it is called stale: the last digit that a sheet shows. */
const SHOWN_DIGIT_PERCENT = 0.05;

/** What an outlet is judged by. */
export type JudgedFigures = Pick<OutletRecord, "designCfm" | "measuredCfm" | "plusMinusCfm">;

/** Nothing is wrong. */
export const SOUND: readonly Finding[] = [];

/** What the row shows of percent and verdict. */
export interface Stored {
  /** Whether the reading is from before the last change: nothing is judged by it. */
  readonly isOld?: boolean;
  readonly sheet: string;
  readonly row: number;
  readonly percent: ShownCell;
  readonly percentColumn: number | undefined;
  readonly verdict: string;
  readonly verdictColumn: number | undefined;
}

const VERDICTS: readonly OutletVerdict[] = ["low", "within", "high", "open"];

/** The verdict that a word says. */
export function storedVerdict(word: string): OutletVerdict | null {
  return VERDICTS.find((verdict) => verdict === word.toLowerCase()) ?? null;
}

/**
 * The verdict by the job's limits and its rule; null where it states one limit of two, since nothing is judged then, and
 * the stored one where it states none.
 */
export function verdictByJob(
  stored: OutletVerdict | null,
  measuredCfm: number,
  designCfm: number,
  plusMinusCfm: number | null,
  kind: OutletRecord["kind"],
  job: StatedJob | null,
): OutletVerdict | null {
  if (job === null) return stored;
  const limits = limitsForKind(kind ?? "", job.details);
  if (limits === null) return null;
  if (limits.isAssumed) return stored;
  const { minusPercent, plusPercent } = limits;
  if (job.details.decisionRule !== "guarded") return designVerdict(measuredCfm, designCfm, minusPercent, plusPercent);
  if (plusMinusCfm === null || plusMinusCfm < 0) return "open";
  return designDecision(measuredCfm, designCfm, plusMinusCfm, minusPercent, plusPercent).decision;
}

/**
 * Works percent and verdict out from an outlet's figures, and says when the stored ones tell otherwise.
 *
 * The job's limits and rule decide; where the workbook does not state them, the stored verdict stands.
 */
export function percentAndVerdict(
  stored: Stored,
  { designCfm, measuredCfm, plusMinusCfm }: JudgedFigures,
  kind: OutletRecord["kind"],
  { job }: OfWorkbook,
): { readonly value: Pick<OutletRecord, "percent" | "verdict">; readonly findings: readonly Finding[] } {
  if (designCfm === null || measuredCfm === null) return { value: { percent: null, verdict: null }, findings: SOUND };
  const percent = percentOfDesign(measuredCfm, designCfm);
  if (stored.isOld) {
    const problem = "The reading is from before the last change of a damper or the fan: no verdict is given.";
    const action = "Read the outlet again, and clear the cell that says old.";
    const place = [stored.sheet, formatAddress(stored.row, stored.verdictColumn ?? 1)] as const;
    const findings = [findingAt(place, "stale-result", "nothing", problem, action)];
    return { value: { percent, verdict: null }, findings };
  }
  const word = storedVerdict(stored.verdict);
  const verdict = verdictByJob(word, measuredCfm, designCfm, plusMinusCfm, kind, job);
  const isPercentStale =
    stored.percent.kind === "number" && Math.abs(stored.percent.value - percent) > SHOWN_DIGIT_PERCENT;
  if (!isPercentStale && (word === null || word === verdict)) return { value: { percent, verdict }, findings: SOUND };
  const shown = `${percent.toFixed(1)} %${verdict === null ? "" : `, ${verdict}`}`;
  const column = (isPercentStale ? stored.percentColumn : stored.verdictColumn) ?? 1;
  const stale = findingAt(
    [stored.sheet, formatAddress(stored.row, column)],
    "stale-result",
    "nothing",
    `Percent or verdict of the row is out of date; its figures give ${shown}, which counts.`,
    "Let the workbook calculate, and save it.",
  );
  return { value: { percent, verdict }, findings: [stale] };
}
