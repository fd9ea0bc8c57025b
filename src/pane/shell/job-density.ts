import { PLAUSIBLE } from "../../../shared/tables/plausible-ranges.js";
import {
  airDensity,
  airDensityAtPressure,
  DomainError,
  fahrenheitFromCelsius,
  feetFromMeters,
  psiFromInchesOfMercury,
  psiFromPascals,
} from "../../core/index.js";
import type { JobDetails } from "../../workbook/index.js";

/** Returns the density of the job's air in lb/ft³; null where no temperature is stated or a figure is out of range. */
export function jobDensity({ units, temperature, elevation, humidityPercent, barometer }: JobDetails): number | null {
  if (temperature === null) return null;
  const isSi = units === "si";
  const temperatureF = isSi ? fahrenheitFromCelsius(temperature) : temperature;
  try {
    if (barometer === null) {
      const elevationFt = isSi ? feetFromMeters(elevation ?? 0) : (elevation ?? 0);
      return airDensity(temperatureF, elevationFt, humidityPercent ?? 0);
    }
    const pressurePsi = isSi ? psiFromPascals(1000 * barometer) : psiFromInchesOfMercury(barometer);
    const { least, most } = PLAUSIBLE.barometerPsi;
    if (!(pressurePsi >= least && pressurePsi <= most)) return null;
    return airDensityAtPressure(temperatureF, pressurePsi, humidityPercent ?? 0);
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
