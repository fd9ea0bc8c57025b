export { actualVelocity } from "./air/actual-velocity.js";
export { airDensity } from "./air/air-density.js";
export { airDensityAtPressure } from "./air/air-density-at-pressure.js";
export { humidityRatio } from "./air/humidity-ratio.js";
export { moistAirDensity } from "./air/moist-air-density.js";
export { pressureAtElevation } from "./air/pressure-at-elevation.js";
export { saturationPressure } from "./air/saturation-pressure.js";
export { standardAirflow } from "./air/standard-airflow.js";
export { standardVelocity } from "./air/standard-velocity.js";
export { type BalanceAdvice, type BalanceStep, type BalanceSystem, balanceAdvice } from "./balancing/balance-advice.js";
export { balanceRatio } from "./balancing/balance-ratio.js";
export { type Branch, branchesOf } from "./balancing/branches-of.js";
export { type CommonRatio, commonRatio } from "./balancing/common-ratio.js";
export { estimatedBranch } from "./balancing/estimated-outlets.js";
export { fanTarget } from "./balancing/fan-target.js";
export { keyOutlet } from "./balancing/key-outlet.js";
export { type LowOutlet, type LowReason, lowOutlets } from "./balancing/low-outlets.js";
export { type MatchWindow, matchWindow } from "./balancing/match-window.js";
export { type NextSetting, nextSetting } from "./balancing/next-setting.js";
export type { BalanceOutlet, MeasuredOutlet } from "./balancing/outlet.js";
export { airflowDecimals, airflowWords } from "./balancing/percent-words.js";
export { FRESH_READINGS, type ReadingOrder } from "./balancing/reading-order.js";
export { workOrder } from "./balancing/work-order.js";
export { LIMIT_TOLERANCE_RATIO } from "./check/compare-with-limit.js";
export { DomainError } from "./check/domain-error.js";
export { airChanges } from "./design/air-changes.js";
export { airflowForAirChanges } from "./design/airflow-for-air-changes.js";
export { airflowForLoad } from "./design/airflow-for-load.js";
export { airflowForTons, TEST_RULE_CFM_PER_TON } from "./design/airflow-for-tons.js";
export { type DesignDecision, designDecision } from "./design/design-decision.js";
export type { DesignLimits } from "./design/design-limits.js";
export { type DesignVerdict, designVerdict } from "./design/design-verdict.js";
export { dwellingVentilation } from "./design/dwelling-ventilation.js";
export { type GoverningAirflow, governingAirflow } from "./design/governing-airflow.js";
export { leakageAirflow } from "./design/leakage-airflow.js";
export { leakagePercent } from "./design/leakage-percent.js";
export { loadShareAirflow } from "./design/load-share-airflow.js";
export { localExhaust } from "./design/local-exhaust.js";
export { manufacturedHomeVentilation } from "./design/manufactured-home-ventilation.js";
export { percentOfDesign } from "./design/percent-of-design.js";
export { transferAirflow } from "./design/transfer-airflow.js";
export { type VentilationKind, ventilationFanAirflow } from "./design/ventilation-fan-airflow.js";
export { fanAirflowAtSpeed } from "./fan/fan-airflow-at-speed.js";
export { type FanMotorCaution, fanMotorCaution } from "./fan/fan-motor-caution.js";
export { fanPowerAtSpeed } from "./fan/fan-power-at-speed.js";
export { fanPressureAtSpeed } from "./fan/fan-pressure-at-speed.js";
export { fanSpeedForAirflow } from "./fan/fan-speed-for-airflow.js";
export { airflow } from "./flow/airflow.js";
export { faceAirflow } from "./flow/face-airflow.js";
export { targetVelocity } from "./flow/target-velocity.js";
export { airflowFromTemperatureRise } from "./heat/airflow-from-temperature-rise.js";
export { latentHeat } from "./heat/latent-heat.js";
export { outsideAirShare } from "./heat/outside-air-share.js";
export { sensibleHeat } from "./heat/sensible-heat.js";
export { sensibleHeatFactor } from "./heat/sensible-heat-factor.js";
export { totalHeat } from "./heat/total-heat.js";
export { factorFromEffectiveArea } from "./openings/factor-from-effective-area.js";
export { flatOvalArea } from "./openings/flat-oval-area.js";
export { freeArea } from "./openings/free-area.js";
export { type FreeAreaOnBasis, freeAreaOnBasis } from "./openings/free-area-on-basis.js";
export { rectangleArea } from "./openings/rectangle-area.js";
export { roundArea } from "./openings/round-area.js";
export { averageFromSum } from "./readings/average-from-sum.js";
export { averageVelocity } from "./readings/average-velocity.js";
export { averageVelocityFromPressures } from "./readings/average-velocity-from-pressures.js";
export { farOffReadings } from "./readings/far-off-readings.js";
export { median } from "./readings/median.js";
export type { PlaneCheck, PlaneFault } from "./readings/plane-check.js";
export { planeCheckByPressures } from "./readings/plane-check-by-pressures.js";
export { planeCheckByVelocities } from "./readings/plane-check-by-velocities.js";
export { spread } from "./readings/spread.js";
export { sweepAverage } from "./readings/sweep-average.js";
export { velocityFromPressure } from "./readings/velocity-from-pressure.js";
export { diameterPoints } from "./traverse/diameter-points.js";
export type { AnyDuctSection, DuctSection, FlatOvalDuct, RectangularDuct, RoundDuct } from "./traverse/duct-section.js";
export { equalAreaDiameterPoints } from "./traverse/equal-area-diameter-points.js";
export { equalAreaGrid } from "./traverse/equal-area-grid.js";
export { equalAreaSidePoints } from "./traverse/equal-area-side-points.js";
export { fieldLayout } from "./traverse/field-layout.js";
export { type FlatOvalLine, flatOvalPoints } from "./traverse/flat-oval-points.js";
export { type FlatOvalStrip, flatOvalStrips } from "./traverse/flat-oval-strips.js";
export { type FlowAngle, flowAngle } from "./traverse/flow-angle.js";
export { hydraulicDiameter } from "./traverse/hydraulic-diameter.js";
export { insertionDepth } from "./traverse/insertion-depth.js";
export { insertionDepths } from "./traverse/insertion-depths.js";
export { largestEqualAreaGrid } from "./traverse/largest-equal-area-grid.js";
export { logLinearDiameterPoints } from "./traverse/log-linear-diameter-points.js";
export { logTchebycheffDiameterPoints } from "./traverse/log-tchebycheff-diameter-points.js";
export { logTchebycheffSidePoints } from "./traverse/log-tchebycheff-side-points.js";
export { method1Layout } from "./traverse/method-1-layout.js";
export { minimumWallDistance, STRICT_WALL_DISTANCE_IN } from "./traverse/minimum-wall-distance.js";
export type { EqualAreaGrid } from "./traverse/near-square-grids.js";
export { sidePoints } from "./traverse/side-points.js";
export { type SiteCheck, siteCheck } from "./traverse/site-check.js";
export { tapeText } from "./traverse/tape-text.js";
export { tapeTextMm } from "./traverse/tape-text-mm.js";
export type { TraverseLayout } from "./traverse/traverse-layout.js";
export {
  type SectionPlace,
  type TraverseLine,
  type TraversePlan,
  type TraversePoint,
  traversePlan,
} from "./traverse/traverse-plan.js";
export { TRAVERSE_RULES, type TraverseRule } from "./traverse/traverse-rule.js";
export { type AirflowBudget, type AirflowDoubt, airflowBudget } from "./uncertainty/airflow-budget.js";
export { airflowUncertainty } from "./uncertainty/airflow-uncertainty.js";
export { type ChangeByRepeatability, changeByRepeatability } from "./uncertainty/change-by-repeatability.js";
export { type ChangeByUncertainty, changeByUncertainty, changeWords } from "./uncertainty/change-by-uncertainty.js";
export { changePercent } from "./uncertainty/change-percent.js";
export { type ChangeVerdict, type ComparedResult, changeVerdict } from "./uncertainty/change-verdict.js";
export { combineUncertainties } from "./uncertainty/combine-uncertainties.js";
export {
  compareSweeps,
  MOST_COMPARED_FREEDOM,
  type SweepComparison,
  type SweptResult,
} from "./uncertainty/compare-sweeps.js";
export { coverageFactor } from "./uncertainty/coverage-factor.js";
export { type Contribution, effectiveDegreesOfFreedom } from "./uncertainty/effective-degrees-of-freedom.js";
export { gaugeLimits } from "./uncertainty/gauge-limits.js";
export { instrumentLimits } from "./uncertainty/instrument-limits.js";
export { type PointsUncertainty, pointsUncertainty } from "./uncertainty/points-uncertainty.js";
export { rectangleAreaUncertainty } from "./uncertainty/rectangle-area-uncertainty.js";
export { type RepeatUncertainty, repeatUncertainty } from "./uncertainty/repeat-uncertainty.js";
export { resolutionUncertainty } from "./uncertainty/resolution-uncertainty.js";
export { roundAreaUncertainty } from "./uncertainty/round-area-uncertainty.js";
export { sampleSpread } from "./uncertainty/sample-spread.js";
export { sharedUncertainty } from "./uncertainty/shared-uncertainty.js";
export { type LimitShape, standardFromLimits } from "./uncertainty/standard-from-limits.js";
export {
  type BudgetPart,
  type BudgetRow,
  type UncertaintyBudget,
  uncertaintyBudget,
} from "./uncertainty/uncertainty-budget.js";
export { cfmFromLitersPerSecond, litersPerSecondFromCfm } from "./units/airflow.js";
export {
  squareFeetFromSquareInches,
  squareFeetFromSquareMeters,
  squareInchesFromSquareFeet,
  squareMetersFromSquareFeet,
} from "./units/area.js";
export { kgM3FromLbFt3, lbFt3FromKgM3 } from "./units/density.js";
export { btuPerLbFromKilojoulesPerKg } from "./units/enthalpy.js";
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
export type { UnitSystemName } from "./units/unit-system-name.js";
export { fpmFromMetersPerSecond, metersPerSecondFromFpm } from "./units/velocity.js";
export { cubicFeetFromCubicMeters, cubicMetersFromCubicFeet } from "./units/volume.js";
export { type DuctMeasurement, ductWorkings } from "./workings/duct-workings.js";
export { type FaceMeasurement, faceWorkings } from "./workings/face-workings.js";
export type { OpeningSize } from "./workings/opening-size.js";
export { stepNumbers } from "./workings/step-numbers.js";
export type { WorkingInput, WorkingStep, Workings, WorkingUnit } from "./workings/workings.js";
export { workingsInSi } from "./workings/workings-in-si.js";
