import { LOCAL_EXHAUST, type LocalExhaustKind, type LocalExhaustRule } from "../../../shared/tables/local-exhaust.js";
import { DomainError } from "../check/domain-error.js";
import type { Cfm, CubicFoot } from "../units/quantity.js";
import { airflowForAirChanges } from "./airflow-for-air-changes.js";

/**
 * Returns the least exhaust airflow of a kitchen or a bath by a row of the local exhaust table.
 *
 * Q = the row's airflow, or N · volume / 60 where the row gives air changes
 *
 * @param kind - Row of the table, such as "bath-on-demand"
 * @param volumeFt3 - Volume of the room, above 0; only a row in air changes uses it [ft3]
 * @returns Minimum exhaust airflow; the local code decides which row binds [cfm]
 * @throws {DomainError} When the row is unknown, or it needs a volume and that is not positive
 * @source ASHRAE 62.2 as told by a glossary page, and 24 CFR 3280.103 (both read); each row names its own
 * @example
 * localExhaust("kitchen-continuous", 1200) // => 100
 */
export function localExhaust(kind: LocalExhaustKind, volumeFt3: CubicFoot): Cfm {
  if (!Object.hasOwn(LOCAL_EXHAUST, kind)) {
    throw new DomainError("kind", `one of ${Object.keys(LOCAL_EXHAUST).join(", ")}`, kind);
  }
  const rule: LocalExhaustRule = LOCAL_EXHAUST[kind];
  if ("leastCfm" in rule) return rule.leastCfm;
  return airflowForAirChanges(rule.leastChangesPerHour, volumeFt3);
}
