import { humidityRatio, pressureAtElevation, saturationPressure } from "../../../src/core/index.js";

/**
 * A formula of the core as an expression of mathjs over quantities with units, written from its source and not from
 * our code, with arguments at which both must agree.
 */
export interface ListedFormula {
  /** Over core's parameter names; their units and that of the result are those of the docstring. */
  readonly expression: string;
  readonly sample: readonly (number | string | readonly number[])[];
  /** A quantity that the expression needs and that another formula gives: value and unit. */
  readonly also?: Readonly<Record<string, readonly [number, string]>>;
}

const READINGS = [310, 455.5, 298, 612];
const PRESSURES = [0.041, 0.09, 0.162];
const itself = (parameter: string, value: number): ListedFormula => ({ expression: parameter, sample: [value] });

/** Every formula that is an equation between quantities. A new one gets its line here. */
export const FORMULAS: Readonly<Record<string, ListedFormula>> = {
  actualVelocity: { expression: "standardVelocityFpm * 0.075 lb/ft^3 / densityLbFt3", sample: [812, 0.0617] },
  airChanges: { expression: "flowCfm / volumeFt3", sample: [125, 36100] },
  airDensity: {
    expression: "(1 + W) * p / (53.35 ft lbf / (lb degR) * tempF * (1 + 1.607858 * W))",
    sample: [71, 5280, 50],
    also: { W: [humidityRatio(71, 50, pressureAtElevation(5280)), ""], p: [pressureAtElevation(5280), "psiExact"] },
  },
  airDensityAtPressure: {
    expression: "(1 + W) * pressurePsi / (53.35 ft lbf / (lb degR) * tempF * (1 + 1.607858 * W))",
    sample: [71, 13.2, 50],
    also: { W: [humidityRatio(71, 50, 13.2), ""] },
  },
  airflow: { expression: "velocityFpm * freeAreaFt2", sample: [412, 1.7] },
  airflowForAirChanges: { expression: "changesPerHour * volumeFt3", sample: [6.1, 3360] },
  airflowForLoad: {
    expression: "sensibleLoadBtuPerHour / (densityLbFt3 * 0.24 BTU / (lb degR) * differenceF)",
    sample: [6100, 19, 0.0713],
  },
  airflowForTons: { expression: "capacityTons * flowCfmPerTon", sample: [2.5, 390] },
  airflowFromTemperatureRise: {
    expression: "outputBtuPerHour / (densityLbFt3 * 0.24 BTU / (lb degR) * (leavingF - enteringF))",
    sample: [64000, 68, 117, 0.0713],
  },
  averageFromSum: { expression: "sumFpm / readingCount", sample: [3600, 9] },
  averageVelocity: { expression: "sum(velocitiesFpm) / 4", sample: [READINGS] },
  averageVelocityFromPressures: {
    expression: "mean(map(pressuresInWg, f(x) = sqrt(2 * x / densityLbFt3)))",
    sample: [PRESSURES, 0.0713],
  },
  btuPerHourFromTons: itself("powerTons", 2.5),
  btuPerHourFromWatts: itself("powerW", 731),
  btuPerLbFromKilojoulesPerKg: itself("enthalpyKjPerKg", 21),
  celsiusDifferenceFromFahrenheit: itself("differenceF", 19),
  celsiusFromFahrenheit: itself("tempF", 71),
  cfmFromLitersPerSecond: itself("flowLps", 71),
  changePercent: { expression: "100 * (after - before) / before", sample: [850, 980] },
  combineUncertainties: { expression: "sqrt(sum(map(contributions, f(x) = x^2)))", sample: [[3.1, 4.2]] },
  cubicFeetFromCubicMeters: itself("volumeM3", 95.1),
  cubicMetersFromCubicFeet: itself("volumeFt3", 3360),
  dwellingVentilation: {
    expression: "0.03 cfm / ft^2 * floorAreaFt2 + 7.5 cfm * (bedroomCount + 1)",
    sample: [1810, 3, "62.2-2019"],
  },
  faceAirflow: { expression: "velocityFpm * areaFt2 * freeAreaRatio", sample: [412, 0.583, 0.71] },
  factorFromEffectiveArea: { expression: "effectiveAreaFt2 / areaFt2", sample: [0.36, 0.51] },
  fahrenheitDifferenceFromCelsius: itself("differenceC", 11),
  fahrenheitFromCelsius: itself("tempC", 21.3),
  fanAirflowAtSpeed: { expression: "flowCfm * newSpeedRpm / speedRpm", sample: [6100, 1990, 1510] },
  fanPowerAtSpeed: {
    expression: "powerHp * (newSpeedRpm / speedRpm)^3 * newDensityLbFt3 / densityLbFt3",
    sample: [6.1, 1990, 1510, 0.075, 0.0713],
  },
  fanPressureAtSpeed: {
    expression: "pressureInWg * (newSpeedRpm / speedRpm)^2 * newDensityLbFt3 / densityLbFt3",
    sample: [1.9, 1990, 1510, 0.075, 0.0713],
  },
  fanSpeedForAirflow: { expression: "speedRpm * wantedFlowCfm / flowCfm", sample: [1990, 6100, 4510] },
  feetFromMeters: itself("lengthM", 3.1),
  flatOvalArea: { expression: "pi * minorIn^2 / 4 + minorIn * (majorIn - minorIn)", sample: [24.5, 12] },
  fpmFromMetersPerSecond: itself("velocityMps", 2.1),
  freeArea: { expression: "areaFt2 * freeAreaRatio", sample: [0.583, 0.71] },
  horsepowerFromKilowatts: itself("powerKw", 1.8),
  humidityRatio: {
    expression: "0.621945 * pw / (pressurePsi - pw)",
    sample: [71, 100, 14.2],
    also: { pw: [saturationPressure(71), "psiExact"] },
  },
  inchesFromMillimeters: itself("lengthMm", 251),
  inchesOfWaterFromPascals: itself("pressurePa", 61),
  instrumentLimits: { expression: "ofReadingPercent / 100 * readingFpm + fixedFpm", sample: [410, 3, 20] },
  insertionDepth: { expression: "positionRatio * insideIn + wallIn", sample: [0.146, 11.5, 0.75] },
  kgM3FromLbFt3: itself("densityLbFt3", 0.0713),
  kilowattsFromHorsepower: itself("powerHp", 6.1),
  latentHeat: {
    expression: "densityLbFt3 * flowCfm * differenceRatio * 1076 BTU / lb",
    sample: [990, 0.0031, 0.0713],
  },
  lbFt3FromKgM3: itself("densityKgM3", 1.19),
  leakageAirflow: { expression: "fanFlowCfm - sum(outletFlowsCfm)", sample: [1210, [400, 380, 331]] },
  leakagePercent: {
    expression: "100 * (fanFlowCfm - sum(outletFlowsCfm)) / fanFlowCfm",
    sample: [1210, [400, 380, 331]],
  },
  litersPerSecondFromCfm: itself("flowCfm", 150),
  loadShareAirflow: {
    expression: "systemFlowCfm * roomLoadBtuPerHour / allLoadsBtuPerHour",
    sample: [6100, 36000, 1210],
  },
  localExhaust: { expression: "5 / hour * volumeFt3", sample: ["kitchen-continuous", 1210] },
  manufacturedHomeVentilation: { expression: "max(50 cfm, 0.035 cfm / ft^2 * floorAreaFt2)", sample: [1810] },
  metersFromFeet: itself("lengthFt", 9.1),
  metersPerSecondFromFpm: itself("velocityFpm", 412),
  millimetersFromInches: itself("lengthIn", 9.1),
  moistAirDensity: {
    expression:
      "(1 + humidityRatio) * pressurePsi / (53.35 ft lbf / (lb degR) * tempF * (1 + 1.607858 * humidityRatio))",
    sample: [86, 0.02, 14.175],
  },
  pascalsFromInchesOfWater: itself("pressureInWg", 0.25),
  pascalsFromPsi: itself("pressurePsi", 14.2),
  outsideAirShare: {
    expression: "(returnAirF - mixedAirF) / (returnAirF - outsideAirF)",
    sample: [74.5, 33.1, 66.2],
  },
  percentOfDesign: { expression: "100 * measuredFlow / designFlow", sample: [142.4, 150] },
  pressureAtElevation: {
    expression: "14.696 psiExact * (1 - 6.8754e-6 / ft * elevationFt)^5.2559",
    sample: [5280],
  },
  psiFromInchesOfMercury: itself("pressureInHg", 29.9),
  psiFromPascals: itself("pressurePa", 95461),
  rectangleArea: { expression: "widthIn * heightIn", sample: [18.5, 20] },
  rectangleAreaUncertainty: {
    expression: "100 * sqrt((toleranceIn / sqrt(3) / widthIn)^2 + (toleranceIn / sqrt(3) / heightIn)^2)",
    sample: [12, 6, 0.0625],
  },
  resolutionUncertainty: { expression: "resolution / sqrt(12)", sample: [10] },
  roundArea: { expression: "pi * diameterIn^2 / 4", sample: [8.25] },
  roundAreaUncertainty: { expression: "100 * 2 * toleranceIn / sqrt(3) / diameterIn", sample: [8, 0.0625] },
  sensibleHeat: {
    expression: "densityLbFt3 * 0.24 BTU / (lb degR) * flowCfm * differenceF",
    sample: [990, 19, 0.0713],
  },
  sensibleHeatFactor: { expression: "densityLbFt3 * 0.24 BTU / (lb degR)", sample: [0.0713] },
  sharedUncertainty: { expression: "sum(contributions)", sample: [[3.1, 4.2]] },
  spread: {
    expression: "100 * sqrt(mean(map(velocitiesFpm, f(x) = (x - mean(velocitiesFpm))^2))) / mean(velocitiesFpm)",
    sample: [READINGS],
  },
  squareFeetFromSquareInches: itself("areaIn2", 71),
  squareFeetFromSquareMeters: itself("areaM2", 0.31),
  squareInchesFromSquareFeet: itself("areaFt2", 0.51),
  squareMetersFromSquareFeet: itself("areaFt2", 0.51),
  standardAirflow: { expression: "flowCfm * densityLbFt3 / (0.075 lb/ft^3)", sample: [990, 0.0617] },
  standardFromLimits: { expression: "halfWidth / sqrt(3)", sample: [32, "rectangular"] },
  standardVelocity: { expression: "velocityFpm * densityLbFt3 / (0.075 lb/ft^3)", sample: [990, 0.0617] },
  sweepAverage: {
    expression: "dot(velocitiesFpm, timesSeconds) / sum(timesSeconds)",
    sample: [
      [400, 461],
      [21, 40],
    ],
  },
  targetVelocity: { expression: "designCfm / (areaFt2 * freeAreaRatio)", sample: [150, 0.51, 0.71] },
  tonsFromBtuPerHour: itself("powerBtuPerHour", 30500),
  totalHeat: { expression: "densityLbFt3 * flowCfm * differenceBtuPerLb", sample: [990, 7.9, 0.0713] },
  transferAirflow: {
    expression: "supplyFlowCfm - (returnFlowCfm + exhaustFlowCfm)",
    sample: [151, 99, 21],
  },
  velocityFromPressure: { expression: "sqrt(2 * pressureInWg / densityLbFt3)", sample: [0.25, 0.0713] },
  ventilationFanAirflow: {
    expression: "max(0 cfm, totalFlowCfm - infiltrationFlowCfm / totalFlowCfm * infiltrationFlowCfm * exteriorRatio)",
    sample: [84, 41, 0.5, "unbalanced"],
  },
  wattsFromBtuPerHour: itself("powerBtuPerHour", 30500),
};

/** Functions that return numbers but are no equation between quantities, each with the reason. */
export const NO_EQUATION: Readonly<Record<string, string>> = {
  airflowUncertainty: "takes a record; its two equations are steps of the workings and are evaluated there",
  fanTarget: "takes records; the sum of their design airflows, or the middle of two ends",
  gaugeLimits: "the larger of two ends, each a mean of roots; its cases work both by hand",
  median: "the middle of a sorted list; its cases count it off",
  sampleSpread: "a standard deviation in percent; its cases work it by hand",
  insertionDepths: "a list of what insertionDepth gives",
  saturationPressure: "a fitted polynomial in the bare number of degrees",
};
