import { converted } from "./converted.js";
import { KILOJOULES_PER_KG_PER_BTU_PER_LB } from "./factors.js";
import type { BtuPerLb, KilojoulePerKg } from "./quantity.js";

/**
 * Returns in Btu per pound what is given in kilojoules per kilogram.
 *
 * Btu/lb = kJ/kg / 2.326
 *
 * @param enthalpyKjPerKg - Enthalpy or a difference of it, any finite number [kJ/kg]
 * @returns The same in Btu per pound [Btu/lb]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8: the International Table Btu per pound is 2.326 kJ/kg exactly
 * @example
 * btuPerLbFromKilojoulesPerKg(10) // => 4.29923
 */
export function btuPerLbFromKilojoulesPerKg(enthalpyKjPerKg: KilojoulePerKg): BtuPerLb {
  return converted("enthalpyKjPerKg", enthalpyKjPerKg, enthalpyKjPerKg / KILOJOULES_PER_KG_PER_BTU_PER_LB);
}
