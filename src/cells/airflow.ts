import { airflow } from "../core/index.js";
import { NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { readMeasured, readNeeded } from "./read-range.js";

/**
 * Air volume through a free area at a mean velocity. Blocks of equal size give a block.
 *
 * @customfunction AIRFLOW
 * @param velocity Mean velocity over the area; negative where the air runs backwards [fpm or m/s].
 * @param freeArea Area that the louvers leave free, above 0 [ft2 or m2].
 * @param [taken] COUNT of the velocity cells, so that a measured 0 is told from a blank cell.
 * @returns Airflow [cfm or L/s].
 */
export function vaneAirflow(velocity: any[][], freeArea: any[][], taken?: any): any[][] {
  return overBlocks(["velocity", "freeArea"], [velocity, freeArea], (oneVelocity, oneArea) => {
    const velocityFpm = readMeasured("velocity", oneVelocity, taken);
    if (velocityFpm === null) return NOTHING_YET;
    return airflow(velocityFpm, readNeeded("freeArea", oneArea));
  });
}
