import { DomainError } from "../check/domain-error.js";
import type { Count, Ratio } from "../units/quantity.js";
import { equalAreaSidePoints } from "./equal-area-side-points.js";
import { logTchebycheffSidePoints } from "./log-tchebycheff-side-points.js";
import type { TraverseRule } from "./traverse-rule.js";

/**
 * Returns the positions of traverse points along the side of a rectangular duct by the rule asked for.
 *
 * See equalAreaSidePoints and logTchebycheffSidePoints for the equations. The log-linear rule of a rectangle is not a
 * grid of equal weights and is not offered.
 *
 * @param rule - "equal area" or "log-Tchebycheff"
 * @param pointsPerSide - Points along the side, 1 to 200 (equal area), 3 to 9 or 11 (log-Tchebycheff)
 * @returns Distances from the inside wall as fractions of the inside dimension, ascending [ratio]
 * @throws {DomainError} When the rule is log-linear or unknown, or has no such number of points
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.4.1; log-Tchebycheff derived, see logTchebycheffSidePoints
 * @example
 * sidePoints("equal area", 3) // => [0.1667, 0.5, 0.8333]
 */
export function sidePoints(rule: TraverseRule, pointsPerSide: Count): readonly Ratio[] {
  switch (rule) {
    case "equal area":
      return equalAreaSidePoints(pointsPerSide);
    case "log-Tchebycheff":
      return logTchebycheffSidePoints(pointsPerSide);
    default:
      throw new DomainError("rule", '"equal area" or "log-Tchebycheff" for a rectangular duct', rule);
  }
}
