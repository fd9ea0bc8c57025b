import { ASSUMED_FREE_AREA } from "../../shared/tables/assumed-free-area.js";
import { airflow, faceAirflow, targetVelocity } from "../core/index.js";
import { guard, NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import { isGiven, readMean, readMeasured, readNeeded, readOptional } from "./read-range.js";
import { readArea } from "./read-size.js";
import { readUnits } from "./unit-system.js";

/**
 * Airflow through a free area at an average velocity. Columns of equal height give a column.
 *
 * @customfunction AIRFLOW
 * @param velocity Average velocity over the area; negative for reverse flow [fpm or m/s].
 * @param freeArea Area that the louvers leave free [ft2 or m2].
 * @param [taken] COUNT of the velocity cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (fpm, ft2, cfm) or "si" (m/s, m2, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles velocity freeArea=area taken units
 */
export function vaneAirflow(velocity: any[][], freeArea: any[][], taken?: any[][], units?: any): any[][] {
  const counts = measuredCounts("velocity", velocity, taken);
  return overBlocks(
    ["velocity", "freeArea", "taken"],
    [velocity, freeArea, counts],
    (oneVelocity, oneArea, oneTaken) => {
      const system = readUnits(units);
      const measured = readMeasured("velocity", oneVelocity, oneTaken);
      if (measured === null) return NOTHING_YET;
      const freeAreaFt2 = system.toFt2(readNeeded("freeArea", oneArea));
      return system.fromCfm(airflow(system.toFpm(measured), freeAreaFt2));
    },
  );
}

/**
 * Airflow through a grille or register from readings over it: average velocity, area and free-area factor.
 *
 * @customfunction AIRFLOW.FACE
 * @param width Width of the opening, or its diameter where no height is given [in or mm].
 * @param height Height of the opening; blank for a round one [in or mm].
 * @param readings Block of readings over the grille or register [fpm or m/s].
 * @param [factor] Free-area factor, above 0 and at most 1; 0.75 is assumed where it is left out [ratio].
 * @param [taken] COUNT of the reading cells; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (in, fpm, cfm) or "si" (mm, m/s, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles width height readings factor taken units
 */
export function vaneAirflowFace(
  width: any,
  height: any,
  readings: any[][],
  factor?: any,
  taken?: any,
  units?: any,
): any {
  return guard(() => {
    const system = readUnits(units);
    const velocity = readMean("readings", readings, taken);
    if (velocity === null) return NOTHING_YET;
    const areaFt2 = readArea(system, width, height);
    const freeAreaRatio = readOptional("factor", factor, ASSUMED_FREE_AREA.metal.freeAreaRatio);
    return system.fromCfm(faceAirflow(system.toFpm(velocity), areaFt2, freeAreaRatio));
  });
}

/**
 * Airflow in a duct from a traverse of velocities: average velocity times the inside area.
 *
 * @customfunction AIRFLOW.DUCT
 * @param width Inside width of the duct, or its diameter where no height is given [in or mm].
 * @param height Inside height of the duct; blank for a round one [in or mm].
 * @param readings Block of readings, each standing for an equal part of the area [fpm or m/s].
 * @param [taken] COUNT of the reading cells; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (in, fpm, cfm) or "si" (mm, m/s, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles width height readings taken units
 */
export function vaneAirflowDuct(width: any, height: any, readings: any[][], taken?: any, units?: any): any {
  return guard(() => {
    const system = readUnits(units);
    const velocity = readMean("readings", readings, taken);
    if (velocity === null) return NOTHING_YET;
    const areaFt2 = readArea(system, width, height);
    return system.fromCfm(airflow(system.toFpm(velocity), areaFt2));
  });
}

/**
 * Velocity that the meter should show when an opening passes its design airflow.
 *
 * @customfunction AIRFLOW.TARGET
 * @param design Design airflow of the opening [cfm or L/s].
 * @param area Area of the whole opening [ft2 or m2].
 * @param [factor] Free-area factor, above 0 and at most 1; 0.75 is assumed where it is left out [ratio].
 * @param [units] "ip" (cfm, ft2, fpm) or "si" (L/s, m2, m/s); inch-pound when left out.
 * @returns Velocity [fpm or m/s].
 * @roles design area factor units
 */
export function vaneAirflowTarget(design: any[][], area: any[][], factor?: any[][], units?: any): any[][] {
  return overBlocks(["design", "area", "factor"], [design, area, factor], (oneDesign, oneArea, oneFactor) => {
    if (!isGiven(oneDesign) && !isGiven(oneArea)) return NOTHING_YET;
    const system = readUnits(units);
    const designCfm = system.toCfm(readNeeded("design", oneDesign));
    const areaFt2 = system.toFt2(readNeeded("area", oneArea));
    const freeAreaRatio = readOptional("factor", oneFactor, ASSUMED_FREE_AREA.metal.freeAreaRatio);
    return system.fromFpm(targetVelocity(designCfm, areaFt2, freeAreaRatio));
  });
}
