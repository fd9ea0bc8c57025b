import { DESIGN_LIMITS } from "../../shared/tables/design-limits.js";
import type { DesignLimits } from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { asSingle, readOptionalZero } from "./read-range.js";

/** Typed for a limit that allows nothing: a 0 cannot be told from a blank cell. */
const NOTHING_ALLOWED = "none";

/** A limit in percent; 0 where somebody says none; "unknown" for 0, which may be a blank cell; null where it is left out. */
function readLimit(argument: string, value: unknown): number | "unknown" | null {
  const single = asSingle(value);
  if (typeof single === "string" && single.trim().toLowerCase() === NOTHING_ALLOWED) return 0;
  const percent = readOptionalZero(argument, single, null);
  return percent === 0 ? "unknown" : percent;
}

function refuseUnknown(argument: string): never {
  throw wrongInput(`${argument} is 0 or blank, and Excel does not say which. Enter "none" where it allows nothing.`);
}

/**
 * Reads `minus` and `plus`: both, or neither for the usual limits. A limit that allows nothing is the word none.
 *
 * @throws {CellError} `#VALUE!` when one is 0, which a blank cell is as well; `#N/A` when only one is given
 */
export function readLimits(minus: unknown, plus: unknown): DesignLimits {
  const [minusPercent, plusPercent] = [readLimit("minus", minus), readLimit("plus", plus)];
  if (minusPercent === "unknown" && plusPercent === "unknown") {
    throw wrongInput("minus and plus are both 0 or blank. Enter the limits, or leave both arguments out for 10 %.");
  }
  if (minusPercent === "unknown") return refuseUnknown("minus");
  if (plusPercent === "unknown") return refuseUnknown("plus");
  if (minusPercent === null && plusPercent === null) return DESIGN_LIMITS;
  if (minusPercent === null || plusPercent === null) {
    const [missing, other] = minusPercent === null ? ["minus", "plus"] : ["plus", "minus"];
    throw missingInput(`${missing} is missing beside ${other}. Enter both limits, or leave both out for 10 %.`);
  }
  return { minusPercent, plusPercent };
}

/** Reads the lower limit where it stands alone; the usual one where it is left out. */
export function readMinus(minus: unknown): number {
  const minusPercent = readLimit("minus", minus) ?? DESIGN_LIMITS.minusPercent;
  if (minusPercent === "unknown") return refuseUnknown("minus");
  requireBelowWhole(minusPercent);
  return minusPercent;
}

/**
 * Reads `minus` and `plus` as balancing takes them: an outlet without air is never within its limits.
 *
 * @throws {CellError} As `readLimits`, and `#VALUE!` when one is negative or nothing would be too little
 */
export function readBalanceLimits(minus: unknown, plus: unknown): DesignLimits {
  const limits = readLimits(minus, plus);
  requireBelowWhole(limits.minusPercent);
  if (limits.plusPercent < 0) throw wrongInput("plus must be 0 or more.");
  return limits;
}

function requireBelowWhole(minusPercent: number): void {
  if (!(minusPercent >= 0 && minusPercent < 100)) throw wrongInput("minus must be from 0 to below 100.");
}
