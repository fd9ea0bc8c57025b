import { DomainError } from "../check/domain-error.js";
import { requirePositive } from "../check/require.js";
import { type DesignLimits, limitRatios } from "../design/design-limits.js";
import { designVerdict } from "../design/design-verdict.js";
import type { Airflow } from "../units/quantity.js";
import { commonRatio } from "./common-ratio.js";
import { type BalanceOutlet, measuredOutlets } from "./outlet.js";

/**
 * Returns the total at which to set the fan once the outlets share in proportion.
 *
 * ΣD, so that the common ratio is 1; where the highest or lowest outlet would leave the limits at that total, the middle
 * of what holds both
 *
 * A change upstream moves every outlet by the same factor: their ratios to each other stay.
 *
 * @param outlets - Outlets of a system, all read, with matched ratios above 0
 * @param limits - How far an outlet may lie from its design
 * @returns Total airflow to set [cfm or L/s]
 * @throws {DomainError} When an outlet was not read or gets no air, or a limit is out of range
 * @source Proportional (ratio) balancing, common practice; the middle of the limits is derived
 * @example
 * fanTarget([
 *   { name: "Hall", branch: "", designFlow: 100, measuredFlow: 92, damper: "throttled" },
 *   { name: "Bath", branch: "", designFlow: 120, measuredFlow: 110.4, damper: "open" },
 * ], { minusPercent: 5, plusPercent: 10 }) // => 220
 */
export function fanTarget(outlets: readonly BalanceOutlet[], limits: DesignLimits): Airflow {
  const { lowRatio, highRatio } = limitRatios(limits);
  const { ratio, designFlow, measuredFlow, notMeasured } = commonRatio(outlets);
  if (ratio === undefined || notMeasured.length > 0) {
    throw new DomainError("outlets", "read, every one", `not read: ${notMeasured.join(", ")}`);
  }
  const all = measuredOutlets(outlets);
  const ratios = all.map((outlet) => outlet.ratio);
  const lowest = Math.min(...ratios);
  requirePositive("measuredFlow", lowest);
  const least = lowRatio / lowest;
  const most = highRatio / Math.max(...ratios);
  const holdsAll = all.every((outlet) => {
    const atDesign = outlet.measuredFlow / ratio;
    return designVerdict(atDesign, outlet.designFlow, limits.minusPercent, limits.plusPercent) === "within";
  });
  return holdsAll ? designFlow : ((least + most) / 2) * measuredFlow;
}
