import type { Ratio } from "../units/quantity.js";

/** Prints a ratio as whole percent for a sentence. */
export function percentWords(ratio: Ratio): string {
  return `${(100 * ratio).toFixed(0)} %`;
}

/** Prints an airflow for a sentence, in whole units from 10 on: nobody sets a damper finer. */
export function airflowWords(airflow: number): string {
  return airflow.toFixed(Math.abs(airflow) < 10 ? 1 : 0);
}
