import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requirePositive } from "../check/require.js";
import type { BtuPerHour, Cfm } from "../units/quantity.js";

/**
 * Returns the part of a system's airflow that a room is due for its part of the load.
 *
 * Q = Q_system · q_room / q_all
 *
 * It holds where every outlet blows air of the same temperature. Heating and cooling loads share differently,
 * so a room has two answers; `governingAirflow` picks the larger.
 *
 * @param roomLoadBtuPerHour - Sensible load of the room, from 0 to the load of all rooms [Btu/h]
 * @param allLoadsBtuPerHour - Sensible load of all rooms on the system together, above 0 [Btu/h]
 * @param systemFlowCfm - Airflow of the system, 0 or more [cfm]
 * @returns Design airflow of the room [cfm]
 * @throws {DomainError} When the load of all rooms is not positive, the room's lies outside it, or the airflow is negative
 * @source Derived from q = 60 · density · cp · Q · difference with one supply temperature; common practice in room design
 * @example
 * loadShareAirflow(6000, 36000, 1200) // => 200
 */
export function loadShareAirflow(
  roomLoadBtuPerHour: BtuPerHour,
  allLoadsBtuPerHour: BtuPerHour,
  systemFlowCfm: Cfm,
): Cfm {
  requirePositive("allLoadsBtuPerHour", allLoadsBtuPerHour);
  if (!(roomLoadBtuPerHour >= 0 && roomLoadBtuPerHour <= allLoadsBtuPerHour)) {
    throw new DomainError("roomLoadBtuPerHour", "from 0 to the load of all rooms", roomLoadBtuPerHour);
  }
  requireAtLeast("systemFlowCfm", systemFlowCfm, 0);
  return systemFlowCfm * (roomLoadBtuPerHour / allLoadsBtuPerHour);
}
