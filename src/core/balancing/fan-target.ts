import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requirePositive } from "../check/require.js";
import type { Cfm, Ratio } from "../units/quantity.js";
import { commonRatio } from "./common-ratio.js";
import { type BalanceOutlet, measuredOutlets } from "./outlet.js";

/**
 * Returns the total at which to set the fan once the outlets share in proportion.
 *
 * ΣD, so that the common ratio is 1; where the highest or lowest outlet would leave the band at that total, the middle
 * of what holds both
 *
 * A change upstream moves every outlet by the same factor: their ratios to each other stay.
 *
 * @param outlets - Outlets of a system, all read, with matched ratios above 0
 * @param lowRatio - Lower end of the band around design, above 0 [ratio]
 * @param highRatio - Upper end of the band, at least the lower [ratio]
 * @returns Total airflow to set [cfm]
 * @throws {DomainError} When an outlet was not read or gets no air, or the band is out of range
 * @source Proportional (ratio) balancing, common practice; the middle of the band is derived
 * @example
 * fanTarget([
 *   { name: "Hall", branch: "", designCfm: 100, measuredCfm: 92, damper: "throttled" },
 *   { name: "Bath", branch: "", designCfm: 120, measuredCfm: 110.4, damper: "open" },
 * ], 0.95, 1.1) // => 220
 */
export function fanTarget(outlets: readonly BalanceOutlet[], lowRatio: Ratio, highRatio: Ratio): Cfm {
  requirePositive("lowRatio", lowRatio);
  requireAtLeast("highRatio", highRatio, lowRatio);
  const { ratio, designCfm, measuredCfm, notMeasured } = commonRatio(outlets);
  if (ratio === undefined || notMeasured.length > 0) {
    throw new DomainError("outlets", "read, every one", `not read: ${notMeasured.join(", ")}`);
  }
  const ratios = measuredOutlets(outlets).map((outlet) => outlet.ratio);
  const lowest = Math.min(...ratios);
  requirePositive("measuredCfm", lowest);
  const least = lowRatio / lowest;
  const most = highRatio / Math.max(...ratios);
  const toDesign = 1 / ratio;
  const holdsBoth = toDesign >= least && toDesign <= most;
  return holdsBoth ? designCfm : ((least + most) / 2) * measuredCfm;
}
