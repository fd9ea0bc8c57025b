import { PLAUSIBLE } from "../../shared/tables/plausible-ranges.js";
import {
  actualVelocity,
  airDensityAtPressure,
  pressureAtElevation,
  psiFromInchesOfMercury,
  psiFromPascals,
  standardAirflow,
} from "../core/index.js";
import { missingInput, wrongInput } from "./cell-error.js";
import { NOTHING_YET } from "./guard.js";
import { measuredCounts } from "./measured-counts.js";
import { overBlocks } from "./over-blocks.js";
import { readNeededDensity } from "./read-density.js";
import { asSingle, isGiven, readMeasured, readNeeded, readOptional, readOptionalZero } from "./read-range.js";
import { readUnits, type UnitSystem } from "./unit-system.js";

/**
 * Density of moist air from its temperature, the elevation or the barometer on site, and the relative humidity.
 *
 * @customfunction AIR.DENSITY
 * @param temperature Temperature of the air in the duct; for exactly 0 degrees enter 0.01 [degF or degC].
 * @param [elevation] Elevation above sea level; sea level when left out [ft or m].
 * @param [humidity] Relative humidity, 1 to 100; dry air when left out [%].
 * @param [units] "ip" (degF, ft, inHg, lb/ft3) or "si" (degC, m, kPa, kg/m3); inch-pound when left out.
 * @param [barometer] Pressure read on site, not reduced to sea level; better than the elevation [inHg or kPa].
 * @returns Density [lb/ft3 or kg/m3].
 * @roles units
 */
export function vaneAirDensity(
  temperature: any[][],
  elevation?: any[][],
  humidity?: any[][],
  units?: any,
  barometer?: any[][],
): any[][] {
  const names = ["temperature", "elevation", "humidity", "barometer"];
  return overBlocks(names, [temperature, elevation, humidity, barometer], (oneTemperature, ...others) => {
    const [oneElevation, oneHumidity, oneBarometer] = others;
    const system = readUnits(units);
    const temperatureF = readAirTemperature(system, oneTemperature);
    const pressurePsi = readAirPressure(system, oneElevation, oneBarometer);
    return system.fromLbFt3(airDensityAtPressure(temperatureF, pressurePsi, readHumidity(oneHumidity)));
  });
}

function readAirTemperature(system: UnitSystem, value: unknown): number {
  if (!isGiven(asSingle(value))) {
    throw missingInput("temperature is blank or 0, and Excel does not say which. For air at 0 degrees enter 0.01.");
  }
  const temperature = readNeeded("temperature", value);
  const isSi = system.name === "si";
  const { least, most } = isSi ? PLAUSIBLE.temperatureC : PLAUSIBLE.temperatureF;
  if (temperature >= least && temperature <= most) return system.toF(temperature);
  const hint = isSi && temperature > most ? ' If it is degF, set units to "ip".' : "";
  throw wrongInput(
    `temperature must be from ${least} to ${most} ${isSi ? "degC" : "degF"}.${hint} Hotter air: enter its density where it is asked.`,
  );
}

function readHumidity(value: unknown): number {
  const humidityPercent = readOptional("humidity", value, 0);
  if (humidityPercent <= 0 || humidityPercent > PLAUSIBLE.humidityPercent.least) return humidityPercent;
  throw wrongInput(`humidity is ${humidityPercent}: enter it in percent, 50 and not 0.5.`);
}

/** The pressure on site: as a barometer read it there, otherwise that of the elevation [psi]. */
function readAirPressure(system: UnitSystem, elevation: unknown, barometer: unknown): number {
  const isSi = system.name === "si";
  const elevationFt = system.toFt(readOptionalZero("elevation", elevation, 0));
  if (elevationFt > PLAUSIBLE.elevationFt.most) {
    throw wrongInput(`elevation is above any town.${isSi ? ' If it is ft, set units to "ip".' : ""}`);
  }
  const standardPsi = pressureAtElevation(elevationFt);
  const read = readOptional("barometer", barometer, null);
  if (read === null) return standardPsi;
  const psi = isSi ? psiFromPascals(1000 * read) : psiFromInchesOfMercury(read);
  const { least, most } = PLAUSIBLE.barometerPsi;
  if (!(psi >= least && psi <= most)) {
    const asked = isSi ? "kPa, some 101 at sea level" : "inHg, some 29.9 at sea level";
    throw wrongInput(`barometer is ${read}: enter it in ${asked}.${isSi ? " 1013 hPa are 101.3 kPa." : ""}`);
  }
  const isOff = Math.abs(psi / standardPsi - 1) > PLAUSIBLE.barometerFromElevationRatio;
  if (elevationFt !== 0 && isOff) {
    throw wrongInput(
      `barometer is ${read}, which does not fit the elevation. Enter what it shows on site, not reduced to sea level.`,
    );
  }
  return psi;
}

/**
 * Actual velocity from the standard velocity that a thermal anemometer shows.
 *
 * @customfunction AIR.ACTUAL
 * @param standardVelocity Velocity as shown, for standard air [fpm or m/s].
 * @param density Density of the air in the duct [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the velocity cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
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
    const densityLbFt3 = readNeededDensity(system, oneDensity);
    return system.fromFpm(actualVelocity(system.toFpm(velocity), densityLbFt3));
  });
}

/**
 * Standard airflow, the same mass of air at standard density, from an actual airflow.
 *
 * @customfunction AIR.STANDARD
 * @param airflow Actual airflow [cfm or L/s].
 * @param density Density of the air in the duct [lb/ft3 or kg/m3].
 * @param [taken] COUNT of the airflow cells, or a column with the COUNT of each; lets a 0 reading count and a blank be skipped.
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
    const densityLbFt3 = readNeededDensity(system, oneDensity);
    return system.fromCfm(standardAirflow(system.toCfm(actual), densityLbFt3));
  });
}
