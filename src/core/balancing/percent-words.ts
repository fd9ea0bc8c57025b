import type { Ratio } from "../units/quantity.js";

/** Prints a ratio as whole percent for a sentence. */
export function percentWords(ratio: Ratio): string {
  return `${(100 * ratio).toFixed(0)} %`;
}

/** Digits behind the decimal sign of an airflow in a sentence: none from 10 on, nobody sets a damper finer. */
export function airflowDecimals(airflow: number): 0 | 1 {
  return Math.abs(airflow) < 10 ? 1 : 0;
}

/** Prints an airflow for a sentence, in the unit of its column. */
export function airflowWords(airflow: number): string {
  return airflow.toFixed(airflowDecimals(airflow));
}
