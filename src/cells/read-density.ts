import { STANDARD_AIR } from "../../shared/tables/standard-air.js";
import { isGiven, readNeeded } from "./read-range.js";
import type { UnitSystem } from "./unit-system.js";

/** Reads an optional density in the person's unit; that of standard air, 0.075 lb/ft3, when not given [lb/ft3]. */
export function readDensity(system: UnitSystem, value: unknown): number {
  return isGiven(value) ? system.toLbFt3(readNeeded("density", value)) : STANDARD_AIR.densityLbFt3;
}
