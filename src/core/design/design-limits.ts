import { isAbove, isBelow } from "../check/compare-with-limit.js";
import { DomainError } from "../check/domain-error.js";
import { requireAtLeast } from "../check/require.js";
import type { Airflow, Percent, Ratio } from "../units/quantity.js";

/** How far an airflow may lie from its design; both limits are allowed themselves. */
export interface DesignLimits {
  readonly minusPercent: Percent;
  readonly plusPercent: Percent;
}

/** Whether an airflow lies below what its limit allows. The other comparison with limits is `isAboveDesign`. */
export function isBelowDesign(measuredFlow: Airflow, designFlow: Airflow, minusPercent: Percent): boolean {
  return isBelow(measuredFlow, designFlow * (1 - minusPercent / 100));
}

/** Whether an airflow lies above what its limit allows. */
export function isAboveDesign(measuredFlow: Airflow, designFlow: Airflow, plusPercent: Percent): boolean {
  return isAbove(measuredFlow, designFlow * (1 + plusPercent / 100));
}

/** The limits as shares of design; refuses limits that an outlet without air would meet. */
export function limitRatios({ minusPercent, plusPercent }: DesignLimits): {
  readonly lowRatio: Ratio;
  readonly highRatio: Ratio;
} {
  requireMinus(minusPercent);
  requireAtLeast("plusPercent", plusPercent, 0);
  return { lowRatio: 1 - minusPercent / 100, highRatio: 1 + plusPercent / 100 };
}

/** Refuses a lower limit that an outlet without air would meet. */
export function requireMinus(minusPercent: Percent): void {
  if (!(minusPercent >= 0 && minusPercent < 100)) {
    throw new DomainError("minusPercent", "from 0 to below 100", minusPercent);
  }
}
