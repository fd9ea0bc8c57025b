import { converted } from "./converted.js";
import { PASCALS_PER_INCH_OF_MERCURY, PASCALS_PER_INCH_OF_WATER, PASCALS_PER_PSI } from "./factors.js";
import type { InHg, InWg, Pascal, Psi } from "./quantity.js";

/**
 * Returns in inches of water what is given in pascals.
 *
 * inWG = Pa / 249.08891
 *
 * @param pressurePa - Pressure, any finite number [Pa]
 * @returns Pressure [inWG]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * inchesOfWaterFromPascals(25) // => 0.10037
 */
export function inchesOfWaterFromPascals(pressurePa: Pascal): InWg {
  return converted("pressurePa", pressurePa, pressurePa / PASCALS_PER_INCH_OF_WATER);
}

/**
 * Returns in pascals what is given in inches of water.
 *
 * Pa = inWG · 249.08891
 *
 * @param pressureInWg - Pressure, of the conventional inch of water, any finite number [inWG]
 * @returns Pressure [Pa]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * pascalsFromInchesOfWater(0.1) // => 24.9089
 */
export function pascalsFromInchesOfWater(pressureInWg: InWg): Pascal {
  return converted("pressureInWg", pressureInWg, pressureInWg * PASCALS_PER_INCH_OF_WATER);
}

/**
 * Returns in pounds-force per square inch what is given in pascals.
 *
 * psi = Pa / 6894.757293…
 *
 * @param pressurePa - Pressure, any finite number [Pa]
 * @returns Pressure [psi]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * psiFromPascals(101325) // => 14.696
 */
export function psiFromPascals(pressurePa: Pascal): Psi {
  return converted("pressurePa", pressurePa, pressurePa / PASCALS_PER_PSI);
}

/**
 * Returns in pascals what is given in pounds-force per square inch.
 *
 * Pa = psi · 6894.757293…
 *
 * @param pressurePsi - Pressure, any finite number [psi]
 * @returns Pressure [Pa]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * pascalsFromPsi(1) // => 6894.757
 */
export function pascalsFromPsi(pressurePsi: Psi): Pascal {
  return converted("pressurePsi", pressurePsi, pressurePsi * PASCALS_PER_PSI);
}

/**
 * Returns in pounds-force per square inch a barometer reading given in inches of mercury.
 *
 * psi = inHg · 3386.388… / 6894.757293…
 *
 * @param pressureInHg - Pressure, of the conventional inch of mercury, any finite number [inHg]
 * @returns Pressure [psi]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * psiFromInchesOfMercury(29.921) // => 14.696
 */
export function psiFromInchesOfMercury(pressureInHg: InHg): Psi {
  return converted("pressureInHg", pressureInHg, (pressureInHg * PASCALS_PER_INCH_OF_MERCURY) / PASCALS_PER_PSI);
}
