import { requireAtLeast, requireBetween, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Inch, Ratio } from "../units/quantity.js";

/**
 * Returns how deep to push the probe from the outside of the wall to reach a traverse point.
 *
 * depth = x · inside dimension + wall
 *
 * @param positionRatio - Position from the inside wall as a fraction of the inside dimension, 0 to 1 [ratio]
 * @param insideIn - Inside diameter or side that the probe crosses, lining deducted, above 0 [in]
 * @param wallIn - Wall, lining and nipple that the probe passes before the air, 0 or more [in]
 * @returns Depth from the outside [in]
 * @throws {DomainError} When an argument is outside its range
 * @source 40 CFR 60 App. A-1, Method 1, §11.3 (positions count from the inside wall)
 * @example
 * insertionDepth(0.146, 20, 1) // => 3.92
 */
export function insertionDepth(positionRatio: Ratio, insideIn: Inch, wallIn: Inch): Inch {
  requireBetween("positionRatio", positionRatio, 0, 1);
  requirePositive("insideIn", insideIn);
  requireAtLeast("wallIn", wallIn, 0);
  return requireFiniteResult("insertionDepth", positionRatio * insideIn + wallIn);
}
