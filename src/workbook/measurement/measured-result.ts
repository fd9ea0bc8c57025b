import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import {
  type AirflowBudget,
  type AirflowDoubt,
  airflowBudget,
  averageVelocity,
  faceAirflow,
  fpmFromMetersPerSecond,
  freeArea,
  litersPerSecondFromCfm,
  metersPerSecondFromFpm,
  repeatUncertainty,
  sampleSpread,
  spread,
  squareMetersFromSquareFeet,
  sweepAverage,
} from "../../core/index.js";
import { type JobDetails, statedRepeat } from "../job/index.js";
import { sizeAreaFt2 } from "./size-area.js";
import { type TakenMeasurement, takenReadings } from "./taken.js";

/** What follows from a measurement, in the units of the job. */
export interface MeasuredResult {
  readonly readingCount: number;
  readonly meanVelocity: number;
  readonly area: number;
  /** The part of the area that the louvers leave free; the whole area of a duct. */
  readonly freeArea: number;
  readonly airflow: number;
  /** The ± of the airflow (95 %), in its own unit. */
  readonly plusMinus: number;
  readonly budget: AirflowBudget;
  /** How unevenly the air crosses the plane, in percent; null for sweeps and where the mean is not above 0. */
  readonly spreadPercent: number | null;
}

function meanFpm(taken: TakenMeasurement): number {
  const readings = takenReadings(taken);
  const readingsFpm = taken.units === "si" ? readings.map(fpmFromMetersPerSecond) : readings;
  if (taken.kind !== "face sweeps") return averageVelocity(readingsFpm);
  return sweepAverage(
    readingsFpm,
    taken.sweeps.map(({ seconds }) => seconds),
  );
}

/** The part of the area that is free: all of a duct, 0.75 of a face whose factor nobody knows. */
export function freeAreaRatioOf(taken: TakenMeasurement): number {
  if (taken.kind === "duct") return 1;
  return taken.factor ?? ASSUMED_FREE_AREA.metal.freeAreaRatio;
}

function factorDoubt(taken: TakenMeasurement, job: JobDetails): number | "assumed" | "none" {
  if (taken.kind === "duct" || taken.factor === 1) return "none";
  if (taken.factor === null) return "assumed";
  return job.factorPercent ?? UNCERTAINTY_DEFAULTS.publishedFactor.plusMinusPercent;
}

/** Two sweeps or more tell themselves how well they repeat; otherwise the job's figure stands, or the assumed one. */
function repeatDoubt(taken: TakenMeasurement, job: JobDetails) {
  const stated = statedRepeat(job);
  if (taken.kind !== "face sweeps" || taken.sweeps.length < 2) return stated;
  const velocities = taken.sweeps.map(({ velocity }) => velocity);
  if (velocities.some((velocity) => !(velocity > 0))) return stated;
  const { standardPercent, degreesOfFreedom } = repeatUncertainty(velocities, job.resolution ?? 0);
  return { repeatPercent: standardPercent, repeatDegreesOfFreedom: degreesOfFreedom };
}

/** Where single points were read, they tell how much a few of them leave open; a sweep covers the opening. */
function pointsOf(taken: TakenMeasurement): AirflowDoubt["points"] {
  if (taken.kind === "face sweeps") return null;
  const readings = takenReadings(taken);
  return { pointCount: readings.length, spreadPercent: sampleSpread(readings) };
}

function budgetOf(taken: TakenMeasurement, job: JobDetails): AirflowBudget {
  return airflowBudget({
    instrumentPercent: job.instrumentPercent ?? "assumed",
    areaPercent: job.areaPercent ?? "assumed",
    factorPercent: factorDoubt(taken, job),
    ...repeatDoubt(taken, job),
    points: pointsOf(taken),
    pitot: null,
  });
}

function spreadOf(taken: TakenMeasurement): number | null {
  const readings = takenReadings(taken);
  const mean = readings.reduce((sum, reading) => sum + reading, 0);
  return taken.kind === "face sweeps" || !(mean > 0) ? null : spread(readings);
}

/**
 * Returns what follows from a measurement; null while nothing is taken.
 *
 * @throws {DomainError} When a size, factor or time is out of its range
 */
export function measuredResult(taken: TakenMeasurement, job: JobDetails): MeasuredResult | null {
  const readingCount = takenReadings(taken).length;
  if (readingCount === 0) return null;
  const velocityFpm = meanFpm(taken);
  const wholeFt2 = sizeAreaFt2(taken.size, taken.units);
  const freeFt2 = freeArea(wholeFt2, freeAreaRatioOf(taken));
  const flowCfm = faceAirflow(velocityFpm, wholeFt2, freeAreaRatioOf(taken));
  const budget = budgetOf(taken, job);
  const isSi = taken.units === "si";
  const flow = isSi ? litersPerSecondFromCfm(flowCfm) : flowCfm;
  return {
    readingCount,
    meanVelocity: isSi ? metersPerSecondFromFpm(velocityFpm) : velocityFpm,
    area: isSi ? squareMetersFromSquareFeet(wholeFt2) : wholeFt2,
    freeArea: isSi ? squareMetersFromSquareFeet(freeFt2) : freeFt2,
    airflow: flow,
    plusMinus: (Math.abs(flow) * budget.expandedPercent) / 100,
    budget,
    spreadPercent: spreadOf(taken),
  };
}
