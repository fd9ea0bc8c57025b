import { converted } from "./converted.js";
import { SQUARE_INCHES_PER_SQUARE_FOOT, SQUARE_METERS_PER_SQUARE_FOOT } from "./factors.js";
import type { SquareFoot, SquareInch, SquareMeter } from "./quantity.js";

/**
 * Returns in square feet what is given in square inches.
 *
 * ft2 = in2 / 144
 *
 * @param areaIn2 - Area, any finite number [in2]
 * @returns Area [ft2]
 * @throws {DomainError} When the number is not finite
 * @source Definition of the foot, 12 in
 * @example
 * squareFeetFromSquareInches(84) // => 0.5833
 */
export function squareFeetFromSquareInches(areaIn2: SquareInch): SquareFoot {
  return converted("areaIn2", areaIn2, areaIn2 / SQUARE_INCHES_PER_SQUARE_FOOT);
}

/**
 * Returns in square inches what is given in square feet.
 *
 * in2 = ft2 · 144
 *
 * @param areaFt2 - Area, any finite number [ft2]
 * @returns Area [in2]
 * @throws {DomainError} When the number is not finite
 * @source Definition of the foot, 12 in
 * @example
 * squareInchesFromSquareFeet(0.5) // => 72
 */
export function squareInchesFromSquareFeet(areaFt2: SquareFoot): SquareInch {
  return converted("areaFt2", areaFt2, areaFt2 * SQUARE_INCHES_PER_SQUARE_FOOT);
}

/**
 * Returns in square feet what is given in square meters.
 *
 * ft2 = m2 / 0.09290304
 *
 * @param areaM2 - Area, any finite number [m2]
 * @returns Area [ft2]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * squareFeetFromSquareMeters(1) // => 10.7639
 */
export function squareFeetFromSquareMeters(areaM2: SquareMeter): SquareFoot {
  return converted("areaM2", areaM2, areaM2 / SQUARE_METERS_PER_SQUARE_FOOT);
}

/**
 * Returns in square meters what is given in square feet.
 *
 * m2 = ft2 · 0.09290304
 *
 * @param areaFt2 - Area, any finite number [ft2]
 * @returns Area [m2]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * squareMetersFromSquareFeet(100) // => 9.290304
 */
export function squareMetersFromSquareFeet(areaFt2: SquareFoot): SquareMeter {
  return converted("areaFt2", areaFt2, areaFt2 * SQUARE_METERS_PER_SQUARE_FOOT);
}
