import {
  averageVelocityFromPressures,
  type PlaneCheck,
  planeCheckByPressures,
  planeCheckByVelocities,
  spread,
} from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { guard, NOTHING_YET } from "./guard.js";
import { pressuresInWg, readDensity, readPitotFactor } from "./read-density.js";
import { allReadings, asSingle, isGiven, readMean, readReadings } from "./read-range.js";
import { readUnits } from "./unit-system.js";

/**
 * Average of point velocities. Negative readings keep their sign; blanks never count; a dead spot counts with taken.
 *
 * @customfunction TRAVERSE.AVERAGE
 * @param readings Block of point readings [fpm or m/s].
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @returns Average velocity, in the unit of the readings.
 * @roles readings taken
 */
export function vaneTraverseAverage(readings: any[][], taken?: any): any {
  return guard(() => readMean("readings", readings, taken) ?? NOTHING_YET);
}

/**
 * Average velocity from velocity pressures: the average of the roots. A negative pressure is averaged in as 0.
 *
 * @customfunction TRAVERSE.PRESSURE
 * @param pressures Block of velocity pressures [in.w.c. or Pa].
 * @param [density] Density of the air in the duct; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (in.w.c., lb/ft3, fpm) or "si" (Pa, kg/m3, m/s); inch-pound when left out.
 * @param [coefficient] Coefficient of the Pitot tube; 1 when left out, about 0.84 for a Type S.
 * @returns Average velocity [fpm or m/s].
 * @roles pressures=readings taken units
 */
export function vaneTraversePressure(
  pressures: any[][],
  density?: any,
  taken?: any,
  units?: any,
  coefficient?: any,
): any {
  return guard(() => {
    const system = readUnits(units);
    const read = readReadings("pressures", pressures, taken);
    if (read === null) return NOTHING_YET;
    const factor = readPitotFactor(coefficient);
    const readInWg = pressuresInWg(system, allReadings(read));
    return system.fromFpm(factor * averageVelocityFromPressures(readInWg, readDensity(system, density)));
  });
}

/**
 * Spread of the readings over the duct or grille. It shows the profile, not the error.
 *
 * @customfunction TRAVERSE.SPREAD
 * @param readings Block of point velocities [fpm or m/s].
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @returns Standard deviation in percent of the average [%].
 * @roles readings taken
 */
export function vaneTraverseSpread(readings: any[][], taken?: any): any {
  return guard(() => {
    const read = readReadings("readings", readings, taken);
    return read === null ? NOTHING_YET : spread(allReadings(read));
  });
}

function verdictWords({ suitable, negativeCount, aboveLimitCount, readingCount, faults }: PlaneCheck): string {
  if (suitable) return "location suitable";
  const reasons = faults.map((fault) =>
    fault === "negative readings"
      ? `${negativeCount} of ${readingCount} show reverse flow`
      : `only ${aboveLimitCount} of ${readingCount} above a tenth of the largest velocity pressure`,
  );
  return `move the traverse location: ${reasons.join("; ")}`;
}

/**
 * Says whether the location suits a traverse: more than 75 % of the velocity pressures above a tenth of the largest, and
 * none negative.
 *
 * @customfunction TRAVERSE.CHECK
 * @param readings Block of point readings.
 * @param [taken] COUNT of the same cells; lets a 0 reading count and a blank be skipped.
 * @param [kind] "velocity" or "pressure", what the readings are; velocity when left out.
 * @returns The verdict in words.
 * @roles readings taken kind=kind-of-reading
 */
export function vaneTraverseCheck(readings: any[][], taken?: any, kind?: any): any {
  return guard(() => {
    const read = readReadings("readings", readings, taken);
    if (read === null) return NOTHING_YET;
    return verdictWords(checkFor(kind)(allReadings(read)));
  });
}

function checkFor(kind: unknown): (readings: readonly number[]) => PlaneCheck {
  const single = asSingle(kind);
  if (!isGiven(single) || single === "velocity") return planeCheckByVelocities;
  if (single === "pressure") return planeCheckByPressures;
  throw wrongInput('kind must be "velocity" or "pressure".');
}
