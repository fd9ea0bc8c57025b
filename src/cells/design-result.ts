import { designDecision, designVerdict, percentOfDesign } from "../core/index.js";
import { NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import { readLimits } from "./read-limits.js";
import { asSingle, isBlank, readMeasured, readNeeded, readNeededZero } from "./read-range.js";

/**
 * Measured airflow in percent of its design airflow, unrounded. Columns of equal height give a column.
 *
 * @customfunction DESIGN.PERCENT
 * @param measured Measured airflow [cfm or L/s].
 * @param design Design airflow, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the measured cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @returns Percent of design [%].
 * @roles measured design taken
 */
export function vaneDesignPercent(measured: any[][], design: any[][], taken?: any[][]): any[][] {
  const counts = measuredCounts("measured", measured, taken);
  return overBlocks(["measured", "design", "taken"], [measured, design, counts], (oneMeasured, oneDesign, oneTaken) => {
    const measuredFlow = readMeasured("measured", oneMeasured, oneTaken);
    if (measuredFlow === null) return NOTHING_YET;
    return percentOfDesign(measuredFlow, readNeeded("design", oneDesign));
  });
}

/**
 * Says whether a measured airflow is low, within or high, judged on the unrounded percent, limits included.
 *
 * @customfunction DESIGN.VERDICT
 * @param measured Measured airflow [cfm or L/s].
 * @param design Design airflow, in the same unit [cfm or L/s].
 * @param [minus] How far below design is allowed, with plus; both 10 when both are left out, "none" for nothing [%].
 * @param [plus] How far above design is allowed, with minus [%].
 * @param [taken] COUNT of the measured cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @returns The word low, within or high.
 * @roles measured design taken
 */
export function vaneDesignVerdict(
  measured: any[][],
  design: any[][],
  minus?: any[][],
  plus?: any[][],
  taken?: any[][],
): any[][] {
  const names = ["measured", "design", "minus", "plus", "taken"];
  const blocks = [measured, design, minus, plus, measuredCounts("measured", measured, taken)];
  return overBlocks(names, blocks, (oneMeasured, oneDesign, oneMinus, onePlus, oneTaken) => {
    const measuredFlow = readMeasured("measured", oneMeasured, oneTaken);
    if (measuredFlow === null) return NOTHING_YET;
    const { minusPercent, plusPercent } = readLimits(oneMinus, onePlus);
    return designVerdict(measuredFlow, readNeeded("design", oneDesign), minusPercent, plusPercent);
  });
}

/**
 * Judges a measured airflow at both ends of its ±: low, within or high; open where a limit lies between them.
 * DESIGN.VERDICT judges the airflow as measured, as most contracts ask; this is the guarded rule.
 *
 * @customfunction DESIGN.DECISION
 * @param measured Measured airflow [cfm or L/s].
 * @param design Design airflow, in the same unit [cfm or L/s].
 * @param plusMinus The ± of the measured airflow (95 %), as UNCERTAINTY.AIRFLOW gives it [cfm or L/s].
 * @param [minus] How far below design is allowed, with plus; both 10 when both are left out, "none" for nothing [%].
 * @param [plus] How far above design is allowed, with minus [%].
 * @param [taken] COUNT of the measured cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @returns The word low, within, high or open.
 * @roles measured design taken
 */
export function vaneDesignDecision(
  measured: any[][],
  design: any[][],
  plusMinus: any[][],
  minus?: any[][],
  plus?: any[][],
  taken?: any[][],
): any[][] {
  const names = ["measured", "design", "plusMinus", "minus", "plus", "taken"];
  const blocks = [measured, design, plusMinus, minus, plus, measuredCounts("measured", measured, taken)];
  return overBlocks(names, blocks, (oneMeasured, oneDesign, onePlusMinus, oneMinus, onePlus, oneTaken) => {
    const measuredFlow = readMeasured("measured", oneMeasured, oneTaken);
    if (measuredFlow === null) return NOTHING_YET;
    const { minusPercent, plusPercent } = readLimits(oneMinus, onePlus);
    const designFlow = readNeeded("design", oneDesign);
    return designDecision(
      measuredFlow,
      designFlow,
      readPlusMinus(onePlusMinus, measuredFlow),
      minusPercent,
      plusPercent,
    ).decision;
  });
}

/** The ± of an airflow: 0 only where the airflow is 0 too, since a blank ± is not one of 0. */
function readPlusMinus(value: unknown, measuredFlow: number): number {
  if (measuredFlow === 0 && !isBlank(asSingle(value))) return readNeededZero("plusMinus", value);
  return readNeeded("plusMinus", value);
}
