import { converted } from "./converted.js";
import { LITERS_PER_SECOND_PER_CFM } from "./factors.js";
import type { Cfm, LiterPerSecond } from "./quantity.js";

/**
 * Returns in cubic feet per minute what is given in liters per second.
 *
 * cfm = L/s / 0.4719474432
 *
 * @param flowLps - Airflow, any finite number [L/s]
 * @returns Airflow [cfm]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * cfmFromLitersPerSecond(100) // => 211.888
 */
export function cfmFromLitersPerSecond(flowLps: LiterPerSecond): Cfm {
  return converted("flowLps", flowLps, flowLps / LITERS_PER_SECOND_PER_CFM);
}

/**
 * Returns in liters per second what is given in cubic feet per minute.
 *
 * L/s = cfm · 0.4719474432
 *
 * @param flowCfm - Airflow, any finite number [cfm]
 * @returns Airflow [L/s]
 * @throws {DomainError} When the number is not finite
 * @source NIST Special Publication 811, appendix B.8
 * @example
 * litersPerSecondFromCfm(150) // => 70.792
 */
export function litersPerSecondFromCfm(flowCfm: Cfm): LiterPerSecond {
  return converted("flowCfm", flowCfm, flowCfm * LITERS_PER_SECOND_PER_CFM);
}
