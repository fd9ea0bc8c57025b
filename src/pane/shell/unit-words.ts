type Units = "ip" | "si";

export const velocityUnit = (units: Units) => (units === "si" ? "m/s" : "fpm");
export const airflowUnit = (units: Units) => (units === "si" ? "L/s" : "cfm");
export const lengthUnit = (units: Units) => (units === "si" ? "mm" : "in");
export const areaUnit = (units: Units) => (units === "si" ? "m²" : "ft²");

/** A number with as many digits as a reading deserves: whole from 100 on, four in all below. */
export function shownNumber(value: number): string {
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return value.toFixed(digits);
}
