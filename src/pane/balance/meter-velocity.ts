import type { JobDetails } from "../../workbook/index.js";

const LITERS_PER_CUBIC_METER = 1000;

/**
 * Returns the mean velocity that the meter shows at a face when it carries an airflow; null without a free area.
 *
 * @param airflow - In cfm or L/s
 * @param freeArea - In ft² or m²
 */
export function meterVelocity(airflow: number, freeArea: number | null, units: JobDetails["units"]): number | null {
  if (freeArea === null || freeArea <= 0) return null;
  return airflow / freeArea / (units === "si" ? LITERS_PER_CUBIC_METER : 1);
}
