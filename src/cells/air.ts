import { actualVelocity, airDensity, standardAirflow } from "../core/index.js";
import { missingInput } from "./cell-error.js";
import { NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import { asSingle, isGiven, readMeasured, readNeeded, readOptional, readOptionalZero } from "./read-range.js";
import { readUnits } from "./unit-system.js";

/**
 * Density of moist air from its temperature, the elevation and the relative humidity.
 *
 * @customfunction AIR.DENSITY
 * @param temperature Temperature of the air in the duct; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param [elevation] Elevation above sea level; sea level when left out [ft or m].
 * @param [humidity] Relative humidity, 0 to 100; dry air when left out [%].
 * @param [units] "ip" (degF, ft, lb/ft3) or "si" (degC, m, kg/m3); inch-pound when left out.
 * @returns Density [lb/ft3 or kg/m3].
 * @roles units
 */
export function vaneAirDensity(temperature: any[][], elevation?: any[][], humidity?: any[][], units?: any): any[][] {
  const names = ["temperature", "elevation", "humidity"];
  return overBlocks(names, [temperature, elevation, humidity], (oneTemperature, oneElevation, oneHumidity) => {
    const system = readUnits(units);
    const temperatureF = system.toF(readTemperature(oneTemperature));
    const elevationFt = system.toFt(readOptionalZero("elevation", oneElevation, 0));
    const humidityPercent = readOptional("humidity", oneHumidity, 0);
    return system.fromLbFt3(airDensity(temperatureF, elevationFt, humidityPercent));
  });
}

function readTemperature(value: unknown): number {
  if (!isGiven(asSingle(value))) {
    throw missingInput("temperature is blank or 0, and Excel does not say which. For air at 0 degrees enter 0.01.");
  }
  return readNeeded("temperature", value);
}

/**
 * Actual velocity from the standard velocity that a thermal anemometer shows.
 *
 * @customfunction AIR.ACTUAL
 * @param standardVelocity Velocity as shown, for standard air [fpm or m/s].
 * @param density Density of the air in the duct [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the velocity cells, or a column with the COUNT of each, so that a measured 0 is told from a blank cell.
 * @param [units] "ip" (fpm, lb/ft3) or "si" (m/s, kg/m3); inch-pound when left out.
 * @returns Actual velocity, in the unit of the standard velocity.
 * @roles taken units
 */
export function vaneAirActual(standardVelocity: any[][], density: any[][], taken?: any[][], units?: any): any[][] {
  const blocks = [standardVelocity, density, measuredCounts("standardVelocity", standardVelocity, taken)];
  return overBlocks(["standardVelocity", "density", "taken"], blocks, (oneVelocity, oneDensity, oneTaken) => {
    const system = readUnits(units);
    const velocity = readMeasured("standardVelocity", oneVelocity, oneTaken);
    if (velocity === null) return NOTHING_YET;
    const densityLbFt3 = system.toLbFt3(readNeeded("density", oneDensity));
    return system.fromFpm(actualVelocity(system.toFpm(velocity), densityLbFt3));
  });
}

/**
 * Standard airflow, the same mass of air at standard density, from an actual airflow.
 *
 * @customfunction AIR.STANDARD
 * @param airflow Actual airflow [cfm or L/s].
 * @param density Density of the air in the duct [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the airflow cells, or a column with the COUNT of each, so that a measured 0 is told from a blank cell.
 * @param [units] "ip" (cfm, lb/ft3) or "si" (L/s, kg/m3); inch-pound when left out.
 * @returns Standard airflow, in the unit of the airflow.
 * @roles taken units
 */
export function vaneAirStandard(airflow: any[][], density: any[][], taken?: any[][], units?: any): any[][] {
  const counts = measuredCounts("airflow", airflow, taken);
  return overBlocks(["airflow", "density", "taken"], [airflow, density, counts], (oneAirflow, oneDensity, oneTaken) => {
    const system = readUnits(units);
    const actual = readMeasured("airflow", oneAirflow, oneTaken);
    if (actual === null) return NOTHING_YET;
    const densityLbFt3 = system.toLbFt3(readNeeded("density", oneDensity));
    return system.fromCfm(standardAirflow(system.toCfm(actual), densityLbFt3));
  });
}
