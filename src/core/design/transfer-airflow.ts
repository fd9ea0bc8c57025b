import { requireAtLeast, requireFiniteResult } from "../check/require.js";
import type { Cfm } from "../units/quantity.js";

/**
 * Returns the air that has to leave a room or a building through doors, grilles and cracks.
 *
 * Q = supply - (return + exhaust)
 *
 * Above 0 the space is blown up and air leaves it; below 0 it draws air in, which a fuel-burning appliance may pay
 * for with combustion gases in the room. For a building, take the outdoor air as supply and no return.
 *
 * @param supplyFlowCfm - Air that ducts bring, 0 or more [cfm]
 * @param returnFlowCfm - Air that return ducts take, 0 or more [cfm]
 * @param exhaustFlowCfm - Air that exhaust takes, 0 or more [cfm]
 * @returns Transfer air, above 0 out of the space, below 0 into it [cfm]
 * @throws {DomainError} When an airflow is negative or not finite
 * @source Conservation of mass at one density
 * @example
 * transferAirflow(150, 100, 20) // => 30
 */
export function transferAirflow(supplyFlowCfm: Cfm, returnFlowCfm: Cfm, exhaustFlowCfm: Cfm): Cfm {
  requireAtLeast("supplyFlowCfm", supplyFlowCfm, 0);
  requireAtLeast("returnFlowCfm", returnFlowCfm, 0);
  requireAtLeast("exhaustFlowCfm", exhaustFlowCfm, 0);
  return requireFiniteResult("transferAirflow", supplyFlowCfm - (returnFlowCfm + exhaustFlowCfm));
}
