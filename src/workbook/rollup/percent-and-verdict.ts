import { type DesignVerdict, designVerdict, percentOfDesign } from "../../core/index.js";
import type { JobLimits } from "./job-details.js";
import type { OutletRecord } from "./outlet-record.js";
import { addFinding, type RowReader, rowCell, rowText } from "./row-reader.js";

/** By so many percent a stored percent may differ before it is called stale: the last digit that a sheet shows. */
const SHOWN_DIGIT_PERCENT = 0.05;

const NOTHING = { percent: null, verdict: null };

/**
 * Works percent and verdict out from an outlet's figures, and says when the stored ones tell otherwise.
 *
 * The job's limits decide; where the workbook does not state them, the stored verdict stands.
 */
export function percentAndVerdict(
  reader: RowReader,
  { designCfm, measuredCfm }: Pick<OutletRecord, "designCfm" | "measuredCfm">,
  { minusPercent, plusPercent }: JobLimits,
): Pick<OutletRecord, "percent" | "verdict"> {
  if (designCfm === null || measuredCfm === null) return NOTHING;
  const percent = percentOfDesign(measuredCfm, designCfm);
  const stored = storedVerdict(rowText(reader, "verdict"));
  const hasLimits = minusPercent !== null && plusPercent !== null;
  const verdict = hasLimits ? designVerdict(measuredCfm, designCfm, minusPercent, plusPercent) : stored;
  const storedPercent = rowCell(reader, "percent");
  const isPercentStale =
    storedPercent.kind === "number" && Math.abs(storedPercent.value - percent) > SHOWN_DIGIT_PERCENT;
  if (isPercentStale || (stored !== null && stored !== verdict)) {
    const shown = `${percent.toFixed(1)} %${verdict === null ? "" : `, ${verdict}`}`;
    const message = `Percent or verdict of the row is out of date; its figures give ${shown}, which counts. Let the workbook calculate, and save it.`;
    addFinding(reader, "stale-result", "note", isPercentStale ? "percent" : "verdict", message);
  }
  return { percent, verdict };
}

function storedVerdict(word: string): DesignVerdict | null {
  const verdict = word.toLowerCase();
  return verdict === "low" || verdict === "within" || verdict === "high" ? verdict : null;
}
