import { DWELLING_VENTILATION, type DwellingVentilationEdition } from "../../../shared/tables/dwelling-ventilation.js";
import { DomainError } from "../check/domain-error.js";
import { requirePositive, requireWhole } from "../check/require.js";
import type { Cfm, Count, SquareFoot } from "../units/quantity.js";

/**
 * Returns the whole-dwelling ventilation rate by one named edition of the standard.
 *
 * Q = 0.03 · A + 7.5 · (bedrooms + 1) in 62.2-2019; the area rate was 0.01 in 62.2-2010
 *
 * An edition brings all its rates, so that those of two editions never meet in one answer. The local code says
 * which edition holds.
 *
 * @param floorAreaFt2 - Floor area of the dwelling, above 0 [ft2]
 * @param bedroomCount - Bedrooms, a whole number of 1 or more: a studio has one (from memory, unverified) [count]
 * @param edition - "62.2-2019" or "62.2-2010"
 * @returns Outdoor air for the dwelling, before any credit for infiltration [cfm]
 * @throws {DomainError} When the area is not positive, the bedrooms are not whole, or the edition is unknown
 * @source ASHRAE 62.2-2019 as cited in a national laboratory's open energy code (read); 62.2-2010 area rate from a
 *   glossary page (read), rate per person from memory, unverified
 * @example
 * dwellingVentilation(1800, 3, "62.2-2019") // => 84
 */
export function dwellingVentilation(
  floorAreaFt2: SquareFoot,
  bedroomCount: Count,
  edition: DwellingVentilationEdition,
): Cfm {
  requirePositive("floorAreaFt2", floorAreaFt2);
  requireWhole("bedroomCount", bedroomCount, 1);
  if (!Object.hasOwn(DWELLING_VENTILATION, edition)) {
    throw new DomainError("edition", Object.keys(DWELLING_VENTILATION).join(" or "), edition);
  }
  const { areaRateCfmFt2, personRateCfm } = DWELLING_VENTILATION[edition];
  return areaRateCfmFt2 * floorAreaFt2 + personRateCfm * (bedroomCount + 1);
}
