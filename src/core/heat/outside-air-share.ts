import { DomainError } from "../check/domain-error.js";
import { requireFinite } from "../check/require.js";
import type { Fahrenheit, Ratio } from "../units/quantity.js";

/**
 * Returns the share of outside air in an air handler's mixed air, from three temperatures.
 *
 * x = (T_return - T_mixed) / (T_return - T_outside)
 *
 * Dry-bulb temperatures read at one time, the mixed one as the average of many points over the filters or the coil: air
 * streams lie side by side for a long way. An error of 1 degF in the mixed temperature costs 1 / |T_return - T_outside|
 * of the whole airflow, so a mild day tells nothing.
 *
 * @param returnAirF - Temperature of the return air [degF]
 * @param outsideAirF - Temperature of the outside air, other than that of the return air [degF]
 * @param mixedAirF - Mean temperature of the mixed air, from one to the other [degF]
 * @returns Outside airflow over the mixed airflow, by mass, 0 to 1 [ratio]
 * @throws {DomainError} When return and outside air are equally warm, or the mixed air is not between them
 * @source Derived from the heat balance of mixing without heat from outside; how to read it is common practice, no source
 * @example
 * outsideAirShare(75, 35, 67) // => 0.2
 */
export function outsideAirShare(returnAirF: Fahrenheit, outsideAirF: Fahrenheit, mixedAirF: Fahrenheit): Ratio {
  requireFinite("returnAirF", returnAirF);
  requireFinite("outsideAirF", outsideAirF);
  requireFinite("mixedAirF", mixedAirF);
  if (outsideAirF === returnAirF)
    throw new DomainError("outsideAirF", "other than the return temperature", outsideAirF);
  const share = (returnAirF - mixedAirF) / (returnAirF - outsideAirF);
  if (!(share >= 0 && share <= 1)) {
    throw new DomainError("mixedAirF", "from the outside to the return temperature", mixedAirF);
  }
  return share;
}
