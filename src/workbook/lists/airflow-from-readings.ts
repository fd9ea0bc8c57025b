import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import {
  averageVelocity,
  DomainError,
  faceAirflow,
  fpmFromMetersPerSecond,
  inchesFromMillimeters,
  litersPerSecondFromCfm,
  rectangleArea,
  roundArea,
  sweepAverage,
  type UnitSystemName,
} from "../../core/index.js";

/** What a row says of its opening and of one state of it, in its units. */
export interface RowInputs {
  readonly units: UnitSystemName;
  readonly width: number | null;
  /** Null for a round opening. */
  readonly height: number | null;
  /** Null where nobody published it: 0.75 is assumed. */
  readonly factor: number | null;
  /** Those that were taken. */
  readonly velocities: readonly number[];
  /** One for each, where they are sweeps. */
  readonly seconds: readonly number[] | null;
}

/**
 * Returns the airflow that follows from what a row's own cells hold, as the templates calculate it; null without a
 * reading or a size, or where one of them is out of its range.
 *
 * @returns cfm or L/s, by the units of the row
 */
export function airflowFromReadings(inputs: RowInputs): number | null {
  const { units, width, height, factor, velocities, seconds } = inputs;
  if (width === null || velocities.length === 0) return null;
  if (seconds !== null && seconds.length !== velocities.length) return null;
  const isSi = units === "si";
  const inches = (length: number) => (isSi ? inchesFromMillimeters(length) : length);
  const velocitiesFpm = isSi ? velocities.map(fpmFromMetersPerSecond) : velocities;
  try {
    const areaFt2 = height === null ? roundArea(inches(width)) : rectangleArea(inches(width), inches(height));
    const velocityFpm = seconds === null ? averageVelocity(velocitiesFpm) : sweepAverage(velocitiesFpm, seconds);
    const flowCfm = faceAirflow(velocityFpm, areaFt2, factor ?? ASSUMED_FREE_AREA.metal.freeAreaRatio);
    return isSi ? litersPerSecondFromCfm(flowCfm) : flowCfm;
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
