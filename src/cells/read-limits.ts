import { DESIGN_LIMITS } from "../../shared/tables/design-limits.js";
import type { DesignLimits } from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { readOptionalZero } from "./read-range.js";

/**
 * Reads `minus` and `plus`; the usual limits where they are left out. One of them may be 0 and allows nothing then.
 *
 * @throws {CellError} `#VALUE!` when both are 0, which two blank cells are as well
 */
export function readLimits(minus: unknown, plus: unknown): DesignLimits {
  const minusPercent = readOptionalZero("minus", minus, DESIGN_LIMITS.minusPercent);
  const plusPercent = readOptionalZero("plus", plus, DESIGN_LIMITS.plusPercent);
  if (minusPercent === 0 && plusPercent === 0) {
    throw wrongInput("minus and plus are both 0 or blank. Enter the limits, or leave both arguments out for 10 %.");
  }
  return { minusPercent, plusPercent };
}

/**
 * Reads `minus` and `plus` as balancing takes them: an outlet without air is never within its limits.
 *
 * @throws {CellError} `#VALUE!` when both are 0, one is negative or nothing would be too little
 */
export function readBalanceLimits(minus: unknown, plus: unknown): DesignLimits {
  const limits = readLimits(minus, plus);
  if (!(limits.minusPercent >= 0 && limits.minusPercent < 100)) throw wrongInput("minus must be from 0 to below 100.");
  if (limits.plusPercent < 0) throw wrongInput("plus must be 0 or more.");
  return limits;
}
