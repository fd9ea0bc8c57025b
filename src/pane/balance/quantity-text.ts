import type { JobDetails } from "../../workbook/index.js";
import { airflowUnit, velocityUnit } from "../shell/unit-words.js";

type Units = JobDetails["units"];

/** In whole units from 10 on: no meter and no damper is finer. */
function plain(value: number): string {
  return value.toFixed(Math.abs(value) < 10 ? 1 : 0);
}

/** Says an airflow with its unit. */
export function airflowText(airflow: number, units: Units): string {
  return `${plain(airflow)} ${airflowUnit(units)}`;
}

/** Says a velocity with its unit. */
export function velocityText(velocity: number, units: Units): string {
  return `${velocity.toFixed(units === "si" ? 2 : 0)} ${velocityUnit(units)}`;
}

/** Says a ratio as whole percent. */
export function percentText(ratio: number): string {
  return `${(100 * ratio).toFixed(0)} %`;
}
