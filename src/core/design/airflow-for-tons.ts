import { requireAtLeast, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Cfm, CfmPerTon, Ton } from "../units/quantity.js";

/**
 * Airflow per ton of cooling that a published rule uses where no certified value exists; the equipment's own
 * instructions come first.
 *
 * @source 10 CFR 430 Subpart B App. M, section 3.1.4.1: "400 scfm per 12,000 Btu/h" (read)
 */
export const TEST_RULE_CFM_PER_TON: CfmPerTon = 400;

/**
 * Returns the airflow of a cooling system from its capacity and an airflow per ton.
 *
 * Q = tons · cfm per ton
 *
 * @param capacityTons - Cooling capacity, 12,000 Btu/h to the ton, 0 or more [ton]
 * @param flowCfmPerTon - Airflow per ton, above 0; 400 in the federal test rule, 350 to 450 in the field (from memory) [cfm/ton]
 * @returns Airflow of the system, at standard density where the airflow per ton is [cfm]
 * @throws {DomainError} When the capacity is negative or the airflow per ton is not positive
 * @source 10 CFR 430 Subpart B App. M, section 3.1.4.1 (read)
 * @example
 * airflowForTons(3, 400) // => 1200
 */
export function airflowForTons(capacityTons: Ton, flowCfmPerTon: CfmPerTon): Cfm {
  requireAtLeast("capacityTons", capacityTons, 0);
  requirePositive("flowCfmPerTon", flowCfmPerTon);
  return requireFiniteResult("airflowForTons", capacityTons * flowCfmPerTon);
}
