import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { DomainError } from "../check/domain-error.js";
import type { Ratio, SquareFoot } from "../units/quantity.js";
import { factorFromEffectiveArea } from "./factor-from-effective-area.js";
import { freeArea } from "./free-area.js";

/** A free area, the factor behind it and what it rests on. */
export interface FreeAreaOnBasis {
  readonly freeAreaFt2: SquareFoot;
  readonly freeAreaRatio: Ratio;
  readonly basis: "published factor" | "published effective area" | "assumed factor";
}

/**
 * Returns the free area of an opening from whichever is known about it, and says on what it rests.
 *
 * A_free = A_effective where that is published, otherwise A · F, with F = 0.75 where nobody knows
 *
 * An effective area already is the free area. Given together with a factor it would be reduced twice, so both at
 * once are refused.
 *
 * @param areaFt2 - Area of the whole opening, above 0 [ft2]
 * @param freeAreaRatio - Published factor, above 0, at most 1, or null where none is known [ratio]
 * @param effectiveAreaFt2 - Published effective area, or null where none is known [ft2]
 * @returns Free area, its factor and the basis
 * @throws {DomainError} When both are given, or one of the numbers is out of its range
 * @source NFPA 54, combustion-air openings, for the assumed 0.75 (as quoted in a utility's guide); common practice
 * @example
 * freeAreaOnBasis(0.5, null, 0.36) // => { freeAreaFt2: 0.36, basis: "published effective area" }
 * freeAreaOnBasis(0.5, null, null) // => { freeAreaFt2: 0.375, basis: "assumed factor" }
 */
export function freeAreaOnBasis(
  areaFt2: SquareFoot,
  freeAreaRatio: Ratio | null,
  effectiveAreaFt2: SquareFoot | null,
): FreeAreaOnBasis {
  if (effectiveAreaFt2 !== null) {
    if (freeAreaRatio !== null) {
      throw new DomainError(
        "freeAreaRatio",
        "left out where an effective area is given, because that area is already the free one",
        freeAreaRatio,
      );
    }
    return {
      freeAreaFt2: effectiveAreaFt2,
      freeAreaRatio: factorFromEffectiveArea(effectiveAreaFt2, areaFt2),
      basis: "published effective area",
    };
  }
  const ratio = freeAreaRatio ?? ASSUMED_FREE_AREA.metal.freeAreaRatio;
  return {
    freeAreaFt2: freeArea(areaFt2, ratio),
    freeAreaRatio: ratio,
    basis: freeAreaRatio === null ? "assumed factor" : "published factor",
  };
}
