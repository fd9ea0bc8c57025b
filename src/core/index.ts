export { DomainError } from "./check/domain-error.js";
export { airChanges } from "./design/air-changes.js";
export { airflowForAirChanges } from "./design/airflow-for-air-changes.js";
export { airflowForLoad } from "./design/airflow-for-load.js";
export { airflowForTons, TEST_RULE_CFM_PER_TON } from "./design/airflow-for-tons.js";
export { dwellingVentilation } from "./design/dwelling-ventilation.js";
export { type GoverningAirflow, governingAirflow } from "./design/governing-airflow.js";
export { leakageAirflow } from "./design/leakage-airflow.js";
export { leakagePercent } from "./design/leakage-percent.js";
export { loadShareAirflow } from "./design/load-share-airflow.js";
export { localExhaust } from "./design/local-exhaust.js";
export { manufacturedHomeVentilation } from "./design/manufactured-home-ventilation.js";
export { transferAirflow } from "./design/transfer-airflow.js";
export { type VentilationKind, ventilationFanAirflow } from "./design/ventilation-fan-airflow.js";
export { fanAirflowAtSpeed } from "./fan/fan-airflow-at-speed.js";
export { type FanMotorCaution, fanMotorCaution } from "./fan/fan-motor-caution.js";
export { fanPowerAtSpeed } from "./fan/fan-power-at-speed.js";
export { fanPressureAtSpeed } from "./fan/fan-pressure-at-speed.js";
export { fanSpeedForAirflow } from "./fan/fan-speed-for-airflow.js";
export { airflow } from "./flow/airflow.js";
export { airflowFromTemperatureRise } from "./heat/airflow-from-temperature-rise.js";
export { latentHeat } from "./heat/latent-heat.js";
export { sensibleHeat } from "./heat/sensible-heat.js";
export { DRY_AIR_SPECIFIC_HEAT_BTU_PER_LB_F, sensibleHeatFactor } from "./heat/sensible-heat-factor.js";
export { totalHeat } from "./heat/total-heat.js";
export { cfmFromLitersPerSecond, litersPerSecondFromCfm } from "./units/airflow.js";
export {
  squareFeetFromSquareInches,
  squareFeetFromSquareMeters,
  squareInchesFromSquareFeet,
  squareMetersFromSquareFeet,
} from "./units/area.js";
export { kgM3FromLbFt3, lbFt3FromKgM3 } from "./units/density.js";
export { feetFromMeters, inchesFromMillimeters, metersFromFeet, millimetersFromInches } from "./units/length.js";
export {
  btuPerHourFromTons,
  btuPerHourFromWatts,
  horsepowerFromKilowatts,
  kilowattsFromHorsepower,
  tonsFromBtuPerHour,
  wattsFromBtuPerHour,
} from "./units/power.js";
export {
  inchesOfWaterFromPascals,
  pascalsFromInchesOfWater,
  pascalsFromPsi,
  psiFromInchesOfMercury,
  psiFromPascals,
} from "./units/pressure.js";
export type * from "./units/quantity.js";
export {
  celsiusDifferenceFromFahrenheit,
  celsiusFromFahrenheit,
  fahrenheitDifferenceFromCelsius,
  fahrenheitFromCelsius,
} from "./units/temperature.js";
export { fpmFromMetersPerSecond, metersPerSecondFromFpm } from "./units/velocity.js";
export { cubicFeetFromCubicMeters, cubicMetersFromCubicFeet } from "./units/volume.js";
