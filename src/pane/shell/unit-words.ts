import type { UnitSystemName } from "../../core/index.js";
export const velocityUnit = (units: UnitSystemName) => (units === "si" ? "m/s" : "fpm");
export const airflowUnit = (units: UnitSystemName) => (units === "si" ? "L/s" : "cfm");
export const lengthUnit = (units: UnitSystemName) => (units === "si" ? "mm" : "in");
export const areaUnit = (units: UnitSystemName) => (units === "si" ? "m²" : "ft²");

/** A number with as many digits as a reading deserves: whole from 100 on, four in all below. */
export function shownNumber(value: number): string {
  const digits = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return value.toFixed(digits);
}
