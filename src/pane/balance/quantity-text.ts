import type { JobDetails } from "../../workbook/index.js";

type Units = JobDetails["units"];

/** In whole units from 10 on: no meter and no damper is finer. */
function plain(value: number): string {
  return value.toFixed(Math.abs(value) < 10 ? 1 : 0);
}

/** Says an airflow with its unit. */
export function airflowText(airflow: number, units: Units): string {
  return `${plain(airflow)} ${units === "si" ? "L/s" : "cfm"}`;
}

/** Says a velocity with its unit. */
export function velocityText(velocity: number, units: Units): string {
  return units === "si" ? `${velocity.toFixed(2)} m/s` : `${velocity.toFixed(0)} fpm`;
}

/** Says a ratio as whole percent. */
export function percentText(ratio: number): string {
  return `${(100 * ratio).toFixed(0)} %`;
}
