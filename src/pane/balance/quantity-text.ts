import { airflowDecimals } from "../../core/index.js";
import { airflowUnit, type JobDetails, velocityUnit } from "../../workbook/index.js";
import { fixedFigure } from "../controls/shown-figure.js";

type Units = JobDetails["units"];

/** Says an airflow with its unit. */
export function airflowText(airflow: number, units: Units): string {
  return `${fixedFigure(airflow, airflowDecimals(airflow))} ${airflowUnit(units)}`;
}

/** Says a velocity with its unit. */
export function velocityText(velocity: number, units: Units): string {
  return `${fixedFigure(velocity, units === "si" ? 2 : 0)} ${velocityUnit(units)}`;
}

/** Says a ratio as whole percent. */
export function percentText(ratio: number): string {
  return `${fixedFigure(100 * ratio, 0)} %`;
}
