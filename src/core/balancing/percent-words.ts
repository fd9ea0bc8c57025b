import type { Ratio } from "../units/quantity.js";

/** Prints a ratio as whole percent for a sentence. */
export function percentWords(ratio: Ratio): string {
  return `${(100 * ratio).toFixed(0)} %`;
}

/**
 * Returns how many decimals a sentence gives an airflow.
 *
 * None from 10 on: nobody sets a damper finer
 *
 * @param airflow - The airflow, in any unit [same unit]
 * @returns The decimals, 1 or 0 [count]
 * @source Common practice, no source
 * @example
 * airflowDecimals(9.5) // => 1
 */
export function airflowDecimals(airflow: number): 0 | 1 {
  return Math.abs(airflow) < 10 ? 1 : 0;
}

/**
 * Prints an airflow for a sentence, without a unit, which its column says.
 *
 * Whole from 10 on, one decimal below
 *
 * @param airflow - The airflow, in any unit [same unit]
 * @returns The figure
 * @source Common practice, no source
 * @example
 * airflowWords(88.494) // => "88"
 */
export function airflowWords(airflow: number): string {
  return airflow.toFixed(airflowDecimals(airflow));
}
