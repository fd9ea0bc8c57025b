import {
  airflowForAirChanges,
  airflowForLoad,
  airflowForTons,
  governingAirflow,
  loadShareAirflow,
  TEST_RULE_CFM_PER_TON,
} from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { type CellResult, guard, guardCell, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { quietWhenEmpty } from "./quiet-when-empty.js";
import { readDensity } from "./read-density.js";
import { asBlock, isGiven, readNeeded, readOptional } from "./read-range.js";
import { readUnits } from "./unit-system.js";

/** Adds up the loads of all rooms; a room without one adds nothing. */
function sumOfLoads(argument: string, block: unknown): number {
  let sum = 0;
  asBlock(block).forEach((row, rowIndex) => {
    row.forEach((load, columnIndex) => {
      const place = `${argument}, row ${rowIndex + 1}, column ${columnIndex + 1},`;
      const value = readOptional(place, load, 0);
      if (value < 0) throw wrongInput(`${place} is below 0. Enter loads without a sign.`);
      sum += value;
    });
  });
  return sum;
}

/**
 * Room airflow in proportion to its load. Works on a column of rooms; every room's load must be in.
 *
 * @customfunction DESIGN.SHARE
 * @param roomLoad Sensible load of the room [Btu/h or W].
 * @param allLoads Loads of all rooms on the system, or their sum, in the same unit [Btu/h or W].
 * @param systemAirflow Airflow of the system [cfm or L/s].
 * @returns Design airflow of the room, in the unit of the system's airflow.
 */
export function vaneDesignShare(roomLoad: any[][], allLoads: any[][], systemAirflow: any): any[][] {
  return overBlocks(["roomLoad"], [roomLoad], (oneLoad) =>
    quietWhenEmpty([oneLoad], () => {
      const sum = readNeeded("allLoads", sumOfLoads("allLoads", allLoads));
      return loadShareAirflow(readNeeded("roomLoad", oneLoad), sum, readNeeded("systemAirflow", systemAirflow));
    }),
  );
}

/**
 * Design airflows of all rooms in one call: heating, cooling, the larger of the two, and the season that governs.
 *
 * @customfunction DESIGN.ROOMS
 * @param heatingLoads Column of the rooms' heating loads [Btu/h or W].
 * @param coolingLoads Column of the rooms' sensible cooling loads [Btu/h or W].
 * @param heatingAirflow Airflow of the system when it heats [cfm or L/s].
 * @param coolingAirflow Airflow of the system when it cools [cfm or L/s].
 * @returns Four columns, a row for each room.
 */
export function vaneDesignRooms(
  heatingLoads: any[][],
  coolingLoads: any[][],
  heatingAirflow: any,
  coolingAirflow: any,
): any[][] {
  return guard(() => {
    const heating = asBlock(heatingLoads);
    const cooling = asBlock(coolingLoads);
    if (heating.length !== cooling.length) {
      throw wrongInput(
        `heatingLoads has ${heating.length} rows, but coolingLoads has ${cooling.length}. Give both the same rows.`,
      );
    }
    const allHeating = sumOfLoads("heatingLoads", heating);
    const allCooling = sumOfLoads("coolingLoads", cooling);
    return heating.map((row, index) => {
      const share = (argument: string, load: unknown, sum: number, airflowName: string, airflow: unknown) =>
        isGiven(load) ? loadShareAirflow(readNeeded(argument, load), sum, readNeeded(airflowName, airflow)) : null;
      return roomRow(
        () => share("heatingLoads", row[0], allHeating, "heatingAirflow", heatingAirflow),
        () => share("coolingLoads", cooling[index]?.[0], allCooling, "coolingAirflow", coolingAirflow),
      );
    });
  });
}

/** A season without a load stays empty and leaves the design to the other one. */
function roomRow(heatingShare: () => number | null, coolingShare: () => number | null): CellResult[] {
  const row = new Array<CellResult>(4).fill(NOTHING_YET);
  row[2] = guardCell(() => {
    const heating = heatingShare();
    const cooling = coolingShare();
    if (heating === null && cooling === null) return NOTHING_YET;
    row[0] = heating ?? NOTHING_YET;
    row[1] = cooling ?? NOTHING_YET;
    const { designFlowCfm, governedBy } = governingAirflow(heating ?? 0, cooling ?? 0);
    row[3] = governedBy;
    return designFlowCfm;
  });
  return row;
}

/**
 * Airflow that carries a sensible load at a temperature difference: load / (1.08 x difference) for standard air.
 *
 * @customfunction DESIGN.LOAD
 * @param sensible Sensible load [Btu/h or W].
 * @param difference Supply air against room air, without sign [degF or degC].
 * @param [density] Density of the supply air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (Btu/h, degF, cfm) or "si" (W, degC, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles units
 */
export function vaneDesignLoad(sensible: any[][], difference: any[][], density?: any[][], units?: any): any[][] {
  const names = ["sensible", "difference", "density"];
  return overBlocks(names, [sensible, difference, density], (oneLoad, oneDifference, oneDensity) => {
    if (!isGiven(oneLoad)) return NOTHING_YET;
    const system = readUnits(units);
    const load = system.toBtuPerHour(readNeeded("sensible", oneLoad));
    const differenceF = system.toDifferenceF(readNeeded("difference", oneDifference));
    return system.fromCfm(airflowForLoad(load, differenceF, readDensity(system, oneDensity)));
  });
}

/**
 * Airflow of a cooling system from its capacity. The equipment's own instructions come first.
 *
 * @customfunction DESIGN.TONS
 * @param capacity Cooling capacity [tons or kW].
 * @param [perTon] Airflow for each ton or kW; 400 cfm per ton, the federal test rule, when left out [cfm or L/s].
 * @param [units] "ip" (tons, cfm) or "si" (kW, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles units
 */
export function vaneDesignTons(capacity: any[][], perTon?: any[][], units?: any): any[][] {
  return overBlocks(["capacity", "perTon"], [capacity, perTon], (oneCapacity, onePerTon) => {
    if (!isGiven(oneCapacity)) return NOTHING_YET;
    const system = readUnits(units);
    const tons = system.toTons(readNeeded("capacity", oneCapacity));
    const perTonGiven = readOptional("perTon", onePerTon, null);
    const cfmPerTon = perTonGiven === null ? TEST_RULE_CFM_PER_TON : system.toCfmPerTon(perTonGiven);
    return system.fromCfm(airflowForTons(tons, cfmPerTon));
  });
}

/**
 * Airflow that changes the air of a room a wanted number of times an hour.
 *
 * @customfunction DESIGN.CHANGES
 * @param changes Wanted air changes an hour [1/h].
 * @param volume Volume of the room [ft3 or m3].
 * @param [units] "ip" (ft3, cfm) or "si" (m3, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles units
 */
export function vaneDesignChanges(changes: any[][], volume: any[][], units?: any): any[][] {
  return overBlocks(["changes", "volume"], [changes, volume], (oneChanges, oneVolume) => {
    if (!isGiven(oneVolume)) return NOTHING_YET;
    const system = readUnits(units);
    const volumeFt3 = system.toFt3(readNeeded("volume", oneVolume));
    return system.fromCfm(airflowForAirChanges(readNeeded("changes", oneChanges), volumeFt3));
  });
}
