import { DomainError } from "../check/domain-error.js";
import { requireFiniteResult, requirePositive } from "../check/require.js";
import type { Inch, SquareInch } from "../units/quantity.js";

/** A flat oval, two half circles of the minor axis joined by straight sides, in inches. */
export interface FlatOval {
  readonly areaIn2: SquareInch;
  readonly perimeterIn: Inch;
}

/** Measures a flat oval after refusing axes that make none. */
export function flatOval(majorIn: Inch, minorIn: Inch): FlatOval {
  requirePositive("minorIn", minorIn);
  // In words: a cell may have been given in mm.
  if (!(majorIn >= minorIn && majorIn < Number.POSITIVE_INFINITY)) {
    throw new DomainError("majorIn", "at least the minor axis", majorIn);
  }
  const straightIn = majorIn - minorIn;
  const areaIn2 = (Math.PI * minorIn ** 2) / 4 + minorIn * straightIn;
  return {
    areaIn2: requireFiniteResult("majorIn times minorIn", areaIn2),
    perimeterIn: requireFiniteResult("majorIn", Math.PI * minorIn + 2 * straightIn),
  };
}
