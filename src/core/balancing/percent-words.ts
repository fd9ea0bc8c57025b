import type { Ratio } from "../units/quantity.js";

/** Prints a ratio as whole percent for a sentence. */
export function percentWords(ratio: Ratio): string {
  return `${(100 * ratio).toFixed(0)} %`;
}

/** The unit in which a sentence names an airflow; null where nobody said it, and the number stands alone. */
export type FlowUnit = "cfm" | "L/s" | null;

/** Prints an airflow for a sentence, in whole units from 10 on: nobody sets a damper finer. */
export function airflowWords(airflow: number, unit: FlowUnit): string {
  const number = airflow.toFixed(Math.abs(airflow) < 10 ? 1 : 0);
  return unit === null ? number : `${number} ${unit}`;
}
