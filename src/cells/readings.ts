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
 * Mean of point velocities. Negative readings keep their sign; blanks never count; a dead spot counts with taken.
 *
 * @customfunction TRAVERSE.AVERAGE
 * @param readings Block of point readings [fpm or m/s].
 * @param [taken] COUNT of the same cells, so that a measured 0 is told from a blank cell.
 * @returns Mean velocity, in the unit of the readings.
 * @roles readings taken
 */
export function vaneTraverseAverage(readings: any[][], taken?: any): any {
  return guard(() => readMean("readings", readings, taken) ?? NOTHING_YET);
}

/**
 * Mean velocity from velocity pressures: the mean of the roots. A negative pressure is averaged in as 0.
 *
 * @customfunction TRAVERSE.PRESSURE
 * @param pressures Block of velocity pressures [in.w.c. or Pa].
 * @param [density] Density of the air in the duct; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the same cells, so that a measured 0 is told from a blank cell.
 * @param [units] "ip" (in.w.c., lb/ft3, fpm) or "si" (Pa, kg/m3, m/s); inch-pound when left out.
 * @param [coefficient] Coefficient of the Pitot tube; 1 when left out, about 0.84 for a Type S.
 * @returns Mean velocity [fpm or m/s].
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
 * Spread of the readings over the plane, as their coefficient of variation. It shows the profile, not the error.
 *
 * @customfunction TRAVERSE.SPREAD
 * @param readings Block of point velocities [fpm or m/s].
 * @param [taken] COUNT of the same cells, so that a measured 0 is told from a blank cell.
 * @returns Standard deviation in percent of the mean [%].
 * @roles readings taken
 */
export function vaneTraverseSpread(readings: any[][], taken?: any): any {
  return guard(() => {
    const read = readReadings("readings", readings, taken);
    return read === null ? NOTHING_YET : spread(allReadings(read));
  });
}

function verdictWords({ suitable, negativeCount, aboveLimitCount, readingCount, faults }: PlaneCheck): string {
  if (suitable) return "plane suitable";
  const reasons = faults.map((fault) =>
    fault === "negative readings"
      ? `${negativeCount} of ${readingCount} run backwards`
      : `only ${aboveLimitCount} of ${readingCount} above a tenth of the largest velocity pressure`,
  );
  return `move the plane: ${reasons.join("; ")}`;
}

/**
 * Says whether the plane suits a traverse: more than 75 % of the velocity pressures above a tenth of the largest, and
 * none negative.
 *
 * @customfunction TRAVERSE.CHECK
 * @param readings Block of point readings.
 * @param [taken] COUNT of the same cells, so that a measured 0 is told from a blank cell.
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
