import { airChanges, leakageAirflow, leakagePercent, transferAirflow } from "../core/index.js";
import { missingInput } from "./cell-error.js";
import { type CellResult, guard, NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import {
  allReadings,
  isBlank,
  isGiven,
  readMeasured,
  readNeeded,
  readNeededZero,
  readOptional,
  readReadings,
  readTaken,
} from "./read-range.js";
import { readUnits } from "./unit-system.js";

/**
 * Air changes an hour that an airflow makes in a room.
 *
 * @customfunction ROOM.CHANGES
 * @param airflow Airflow into or out of the room [cfm or L/s].
 * @param volume Volume of the room [ft3 or m3].
 * @param [taken] COUNT of the airflow cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
 * @param [units] "ip" (cfm, ft3) or "si" (L/s, m3); inch-pound when left out.
 * @returns Air changes an hour [1/h].
 * @roles taken units
 */
export function vaneRoomChanges(airflow: any[][], volume: any[][], taken?: any[][], units?: any): any[][] {
  const counts = measuredCounts("airflow", airflow, taken);
  return overBlocks(["airflow", "volume", "taken"], [airflow, volume, counts], (oneAirflow, oneVolume, oneTaken) => {
    const system = readUnits(units);
    const measured = isGiven(oneVolume) || isGiven(oneAirflow) ? readMeasured("airflow", oneAirflow, oneTaken) : null;
    if (measured === null) return NOTHING_YET;
    return airChanges(system.toCfm(measured), system.toFt3(readNeeded("volume", oneVolume)));
  });
}

/**
 * Air that must leave a room or building by doors and cracks: supply less return and exhaust. Below 0 air is drawn
 * in: near fuel-burning appliances test for spillage and carbon monoxide, and follow the fuel-gas code.
 *
 * @customfunction ROOM.TRANSFER
 * @param supply Supply airflow [cfm or L/s].
 * @param returned Return airflow, in the same unit [cfm or L/s].
 * @param [exhaust] Exhaust airflow, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the row's airflow cells, so that a room without one of them is told from blank cells.
 * @returns Transfer air, in the unit of the airflows; above 0 out of the room, below 0 into it.
 * @roles taken
 */
export function vaneRoomTransfer(supply: any[][], returned: any[][], exhaust?: any[][], taken?: any[][]): any[][] {
  const names = ["supply", "returned", "exhaust", "taken"];
  return overBlocks(names, [supply, returned, exhaust, taken], (oneSupply, oneReturned, oneExhaust, oneTaken) => {
    const measured = readRow({ supply: oneSupply, returned: oneReturned, exhaust: oneExhaust }, readTaken(oneTaken));
    return measured === null ? NOTHING_YET : transferAirflow(...measured);
  });
}

/** Reads the three airflows of a room; null until all that the row asks for are measured. */
function readRow(row: Readonly<Record<string, unknown>>, taken: number | null): [number, number, number] | null {
  const asked = Object.entries(row).filter(([, value]) => !isBlank(value));
  if (!asked.some(([, value]) => isGiven(value)) && (taken ?? 0) === 0) return null;
  if (taken === null) {
    const undecided = asked.find(([, value]) => !isGiven(value));
    if (undecided !== undefined) {
      throw missingInput(
        `${undecided[0]} is blank or 0, and Excel does not say which. Where there is none, enter 0 and add the argument taken = COUNT of the row's airflow cells.`,
      );
    }
  } else if (taken < asked.length) return null;
  return [
    readNeededZero("supply", row["supply"]),
    readNeededZero("returned", row["returned"]),
    isBlank(row["exhaust"]) ? 0 : readNeededZero("exhaust", row["exhaust"]),
  ];
}

/** Reads fan and outlets and compares them; quiet until both are measured. */
function compareWithFan(
  fan: unknown,
  outlets: unknown,
  taken: unknown,
  compare: (fanFlow: number, outletFlows: readonly number[]) => CellResult,
): CellResult {
  return guard(() => {
    const read = readReadings("outlets", outlets, taken);
    const fanFlow = readOptional("fan", fan, null);
    return read === null || fanFlow === null ? NOTHING_YET : compare(fanFlow, allReadings(read));
  });
}

/**
 * Air lost between a fan and its outlets: fan airflow less the sum of the outlets. It is the small difference of two
 * large measurements, and says little unless it is well above their ±.
 *
 * @customfunction DUCT.LEAKAGE
 * @param fan Airflow at the fan [cfm or L/s].
 * @param outlets Airflows of all outlets, or all inlets of a return, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the outlet cells; lets a 0 reading count and a blank be skipped; every outlet must be in.
 * @returns Leakage, in the unit of the airflows; below 0 the measurements disagree.
 * @roles taken
 */
export function vaneDuctLeakage(fan: any, outlets: any[][], taken?: any): any {
  return compareWithFan(fan, outlets, taken, leakageAirflow);
}

/**
 * Air lost between a fan and its outlets in percent of the fan's airflow.
 *
 * @customfunction DUCT.LEAKAGEPERCENT
 * @param fan Airflow at the fan [cfm or L/s].
 * @param outlets Airflows of all outlets, or all inlets of a return, in the same unit [cfm or L/s].
 * @param [taken] COUNT of the outlet cells; lets a 0 reading count and a blank be skipped; every outlet must be in.
 * @returns Leakage; below 0 the measurements disagree [%].
 * @roles taken
 */
export function vaneDuctLeakagepercent(fan: any, outlets: any[][], taken?: any): any {
  return compareWithFan(fan, outlets, taken, leakagePercent);
}
