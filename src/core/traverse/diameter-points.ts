import type { Count, Ratio } from "../units/quantity.js";
import { equalAreaDiameterPoints } from "./equal-area-diameter-points.js";
import { logLinearDiameterPoints } from "./log-linear-diameter-points.js";
import { logTchebycheffDiameterPoints } from "./log-tchebycheff-diameter-points.js";
import { requireRule, type TraverseRule } from "./traverse-rule.js";

const BY_RULE = {
  "equal area": equalAreaDiameterPoints,
  "log-linear": logLinearDiameterPoints,
  "log-Tchebycheff": logTchebycheffDiameterPoints,
} as const;

/**
 * Returns the positions of traverse points on a diameter by any of the three rules.
 *
 * See equalAreaDiameterPoints, logLinearDiameterPoints and logTchebycheffDiameterPoints for the equations.
 *
 * @param rule - "equal area", "log-linear" or "log-Tchebycheff"
 * @param pointsPerDiameter - Points on the whole diameter, even, at least 2 (equal area) or 4
 * @returns Distances from the inside wall as fractions of the inside diameter, ascending [ratio]
 * @throws {DomainError} When the rule is unknown or has no such number of points
 * @source 40 CFR 60 App. A-1, Method 1, §11.3.1.1; ISO 5802:2001, Tables 2 and 3
 * @example
 * diameterPoints("log-linear", 8) // => [0.021, 0.117, 0.184, 0.345, 0.655, 0.816, 0.883, 0.979]
 */
export function diameterPoints(rule: TraverseRule, pointsPerDiameter: Count): readonly Ratio[] {
  requireRule(rule);
  return BY_RULE[rule](pointsPerDiameter);
}
