import { PLAUSIBLE } from "../../shared/tables/plausible-ranges.js";
import { STANDARD_AIR } from "../../shared/tables/standard-air.js";
import { wrongInput } from "./cell-error.js";
import { isGiven, readNeeded } from "./read-range.js";
import type { UnitSystem } from "./unit-system.js";

/** Reads an optional density in the person's unit; that of standard air, 0.075 lb/ft3, when not given [lb/ft3]. */
export function readDensity(system: UnitSystem, value: unknown): number {
  return isGiven(value) ? readNeededDensity(system, value) : STANDARD_AIR.densityLbFt3;
}

/** Reads a density, and refuses one that no air has: it is most likely in the other unit [lb/ft3]. */
export function readNeededDensity(system: UnitSystem, value: unknown): number {
  const density = readNeeded("density", value);
  if (density <= 0) throw wrongInput("density must be above 0.");
  const densityLbFt3 = system.toLbFt3(density);
  const { least, most } = PLAUSIBLE.densityLbFt3;
  if (densityLbFt3 >= least && densityLbFt3 <= most) return densityLbFt3;
  const [unit, other, range, otherName] =
    system.name === "si" ? ["kg/m3", "lb/ft3", "0.4 to 2", "ip"] : ["lb/ft3", "kg/m3", "0.025 to 0.125", "si"];
  const isOther = system.name === "si" ? density >= least && density <= most : density > 0.4 && density < 2;
  const hint = isOther ? ` It looks like ${other}: set units to "${otherName}", or enter it in ${unit}.` : "";
  throw wrongInput(`density is ${density}, but air has ${range} ${unit}.${hint}`);
}

/** Reads the coefficient of a Pitot tube; 1 when not given. A standard tube has 0.99 to 1, a Type S about 0.84. */
export function readPitotFactor(value: unknown): number {
  const factor = isGiven(value) ? readNeeded("coefficient", value) : 1;
  if (factor >= 0.5 && factor <= 1.2) return factor;
  throw wrongInput(
    "coefficient must be that of the Pitot tube, from 0.5 to 1.2: 1 for a standard one, 0.84 for a Type S.",
  );
}

/** Turns velocity pressures into in.w.c., and refuses what no duct of a building has [in.w.c.]. */
export function pressuresInWg(system: UnitSystem, pressures: readonly number[]): readonly number[] {
  const converted = pressures.map(system.toInWg);
  const most = converted.reduce((highest, pressure) => Math.max(highest, pressure), 0);
  if (most <= PLAUSIBLE.velocityPressureInWg.most) return converted;
  const hint = system.name === "si" ? "Enter Pa." : 'For Pa set units to "si".';
  throw wrongInput(`pressures hold ${pressures[converted.indexOf(most)]}, more than any velocity pressure. ${hint}`);
}
