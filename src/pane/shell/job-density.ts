import { airDensity, DomainError, fahrenheitFromCelsius, feetFromMeters } from "../../core/index.js";
import type { JobDetails } from "../../workbook/index.js";

/** Returns the density of the job's air in lb/ft³; null where no temperature is stated or a figure is out of range. */
export function jobDensity({ units, temperature, elevation, humidityPercent }: JobDetails): number | null {
  if (temperature === null) return null;
  const temperatureF = units === "si" ? fahrenheitFromCelsius(temperature) : temperature;
  const elevationFt = units === "si" ? feetFromMeters(elevation ?? 0) : (elevation ?? 0);
  try {
    return airDensity(temperatureF, elevationFt, humidityPercent ?? 0);
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
