import { PLAUSIBLE } from "../../shared/tables/plausible-ranges.js";
import {
  airflowFromTemperatureRise,
  latentHeat,
  outsideAirShare,
  sensibleHeat,
  sensibleHeatFactor,
  totalHeat,
} from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { type CellResult, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { readDensity } from "./read-density.js";
import { asSingle, isGiven, readNeeded } from "./read-range.js";
import { readUnits, type UnitSystem } from "./unit-system.js";

/** Heat of a column of airflows: quiet where no airflow stands. */
function heatOf(
  blocks: readonly unknown[],
  units: unknown,
  heat: (flowCfm: number, difference: number, densityLbFt3: number, system: UnitSystem) => number,
): CellResult[][] {
  return overBlocks(["airflow", "difference", "density"], blocks, (airflow, difference, density) => {
    if (!isGiven(airflow)) return NOTHING_YET;
    const system = readUnits(units);
    const flowCfm = system.toCfm(readNeeded("airflow", airflow));
    const read = readNeeded("difference", difference);
    return system.fromBtuPerHour(heat(flowCfm, read, readDensity(system, density), system));
  });
}

/**
 * Sensible heat that an airflow carries: 1.08 x airflow x difference for standard air in inch-pound units.
 *
 * @customfunction HEAT.SENSIBLE
 * @param airflow Airflow [cfm or L/s].
 * @param difference Temperature after less before; below 0 where the air is cooled [degF or degC].
 * @param [density] Density of the air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (cfm, degF, Btu/h) or "si" (L/s, degC, W); inch-pound when left out.
 * @returns Sensible heat [Btu/h or W].
 * @roles units
 */
export function vaneHeatSensible(airflow: any[][], difference: any[][], density?: any[][], units?: any): any[][] {
  return heatOf([airflow, difference, density], units, (flowCfm, read, densityLbFt3, system) =>
    sensibleHeat(flowCfm, system.toDifferenceF(read), densityLbFt3),
  );
}

/**
 * Latent heat that an airflow carries, from its change of humidity ratio.
 *
 * @customfunction HEAT.LATENT
 * @param airflow Airflow [cfm or L/s].
 * @param difference Humidity ratio after less before, water to dry air by mass [lb/lb or kg/kg].
 * @param [density] Density of the air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (cfm, Btu/h) or "si" (L/s, W); inch-pound when left out.
 * @returns Latent heat [Btu/h or W].
 * @roles units
 */
export function vaneHeatLatent(airflow: any[][], difference: any[][], density?: any[][], units?: any): any[][] {
  return heatOf([airflow, difference, density], units, latentHeat);
}

/**
 * Total heat that an airflow carries: 4.5 x airflow x enthalpy difference for standard air in inch-pound units.
 *
 * @customfunction HEAT.TOTAL
 * @param airflow Airflow [cfm or L/s].
 * @param difference Enthalpy after less before [Btu/lb or kJ/kg].
 * @param [density] Density of the air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (cfm, Btu/lb, Btu/h) or "si" (L/s, kJ/kg, W); inch-pound when left out.
 * @returns Total heat [Btu/h or W].
 * @roles units
 */
export function vaneHeatTotal(airflow: any[][], difference: any[][], density?: any[][], units?: any): any[][] {
  return heatOf([airflow, difference, density], units, (flowCfm, read, densityLbFt3, system) =>
    totalHeat(flowCfm, system.toBtuPerLb(read), densityLbFt3),
  );
}

/**
 * Sensible heat for each unit of airflow and degree: 1.08 for standard air in inch-pound units.
 *
 * @customfunction HEAT.FACTOR
 * @param [density] Density of the air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (Btu/h for each cfm and degF) or "si" (W for each L/s and degC); inch-pound when left out.
 * @returns Sensible heat factor.
 * @roles units
 */
export function vaneHeatFactor(density?: any[][], units?: any): any[][] {
  return overBlocks(["density"], [density], (oneDensity) => {
    const system = readUnits(units);
    const factor = sensibleHeatFactor(readDensity(system, oneDensity));
    return system.fromBtuPerHour(factor * system.toDifferenceF(1) * system.toCfm(1));
  });
}

/**
 * Airflow through a heater from its output and the temperature rise. Take the output, not the input, in steady
 * running; keep the leaving sensor out of sight of the heat exchanger.
 *
 * @customfunction HEAT.RISE
 * @param output Heat that reaches the air [Btu/h or W].
 * @param entering Temperature before the heater; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param leaving Temperature after the heater; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param [density] Density of the air; standard air, 0.075 lb/ft3, when left out [lb/ft3 or kg/m3].
 * @param [units] "ip" (Btu/h, degF, cfm) or "si" (W, degC, L/s); inch-pound when left out.
 * @returns Airflow [cfm or L/s].
 * @roles units
 */
export function vaneHeatRise(
  output: any[][],
  entering: any[][],
  leaving: any[][],
  density?: any[][],
  units?: any,
): any[][] {
  const names = ["output", "entering", "leaving", "density"];
  return overBlocks(names, [output, entering, leaving, density], (oneOutput, oneEntering, oneLeaving, oneDensity) => {
    if (!isGiven(oneEntering) && !isGiven(oneLeaving)) return NOTHING_YET;
    const system = readUnits(units);
    return system.fromCfm(
      airflowFromTemperatureRise(
        system.toBtuPerHour(readNeeded("output", oneOutput)),
        system.toF(readTemperature("entering", oneEntering)),
        system.toF(readTemperature("leaving", oneLeaving)),
        readDensity(system, oneDensity),
      ),
    );
  });
}

/**
 * Share of outside air in mixed air from three temperatures read at one time: (return - mixed) / (return - outside).
 * A mixed-air error of one degree costs one part in that difference: read many points, not on a mild day. Any one unit.
 *
 * @customfunction HEAT.OUTSIDE
 * @param returnAir Temperature of the return air; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param outsideAir Temperature of the outside air; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param mixedAir Average temperature of the mixed air; for exactly 0 degrees enter 0.01 [degF or degC].
 * @returns Outside airflow over mixed airflow, by mass, 0 to 1 [ratio].
 */
export function vaneHeatOutside(returnAir: any[][], outsideAir: any[][], mixedAir: any[][]): any[][] {
  return overBlocks(
    ["returnAir", "outsideAir", "mixedAir"],
    [returnAir, outsideAir, mixedAir],
    (one, outside, mixed) => {
      if (!isGiven(one) && !isGiven(outside) && !isGiven(mixed)) return NOTHING_YET;
      const returnAir = readTemperature("returnAir", one);
      const outsideAirTemperature = readTemperature("outsideAir", outside);
      const difference = Math.abs(returnAir - outsideAirTemperature);
      if (difference < PLAUSIBLE.outsideDifference.least) {
        throw wrongInput(
          `returnAir and outsideAir differ by ${Number(difference.toPrecision(2))} degrees only: one degree in the mixed air would shift the share too far. Read on a colder or hotter day, or traverse.`,
        );
      }
      return outsideAirShare(returnAir, outsideAirTemperature, readTemperature("mixedAir", mixed));
    },
  );
}

function readTemperature(argument: string, value: unknown): number {
  if (isGiven(asSingle(value))) return readNeeded(argument, value);
  throw missingInput(`${argument} is blank or 0, and Excel does not say which. For exactly 0 degrees enter 0.01.`);
}
