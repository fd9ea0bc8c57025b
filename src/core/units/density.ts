import { converted } from "./converted.js";
import { KG_M3_PER_LB_FT3 } from "./factors.js";
import type { KgM3, LbFt3 } from "./quantity.js";

/**
 * Returns in pounds per cubic foot what is given in kilograms per cubic meter.
 *
 * lb/ft3 = kg/m3 / 16.018463374…
 *
 * @param densityKgM3 - Density, any finite number [kg/m3]
 * @returns Density [lb/ft3]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * lbFt3FromKgM3(1.204) // => 0.07516
 */
export function lbFt3FromKgM3(densityKgM3: KgM3): LbFt3 {
  return converted("densityKgM3", densityKgM3, densityKgM3 / KG_M3_PER_LB_FT3);
}

/**
 * Returns in kilograms per cubic meter what is given in pounds per cubic foot.
 *
 * kg/m3 = lb/ft3 · 16.018463374…
 *
 * @param densityLbFt3 - Density, any finite number [lb/ft3]
 * @returns Density [kg/m3]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * kgM3FromLbFt3(0.075) // => 1.20138
 */
export function kgM3FromLbFt3(densityLbFt3: LbFt3): KgM3 {
  return converted("densityLbFt3", densityLbFt3, densityLbFt3 * KG_M3_PER_LB_FT3);
}
