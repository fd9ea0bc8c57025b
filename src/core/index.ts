export { DomainError } from "./check/domain-error.js";
export { airflow } from "./flow/airflow.js";
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
