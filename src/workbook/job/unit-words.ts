import type { UnitSystemName } from "../../core/index.js";

/*
 * How the units of a job are called, wherever a person reads them. The columns of a template have words of their own,
 * which follow its choice of units.
 */

export const velocityUnit = (units: UnitSystemName) => (units === "si" ? "m/s" : "fpm");
export const airflowUnit = (units: UnitSystemName) => (units === "si" ? "L/s" : "cfm");
export const lengthUnit = (units: UnitSystemName) => (units === "si" ? "mm" : "in");
export const areaUnit = (units: UnitSystemName) => (units === "si" ? "m²" : "ft²");
