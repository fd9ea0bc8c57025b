import { ASSUMED_FREE_AREA } from "../../../shared/tables/assumed-free-area.js";
import {
  averageVelocity,
  DomainError,
  freeArea,
  inchesFromMillimeters,
  litersPerSecondFromCfm,
  rectangleArea,
  roundArea,
  sweepAverage,
  type UnitSystemName,
} from "../../core/index.js";
import { fpmOf, squareFeetOf } from "./mapped-unit.js";

/** What a row says of its opening, each figure in its units. */
export interface OpeningInputs {
  readonly sizeUnits: UnitSystemName;
  readonly areaUnits: UnitSystemName;
  /** The diameter where there is no height. */
  readonly width: number | null;
  /** Null for a round opening. */
  readonly height: number | null;
  /** The whole area, which counts where there is no size. */
  readonly area: number | null;
  /** The part of it that counts, as it was published or worked out: no factor is applied to it. */
  readonly freeArea: number | null;
  /** Null where nobody published it: 0.75 is assumed. */
  readonly factor: number | null;
}

/** What a row says of its opening and of one state of it. */
export interface RowInputs extends OpeningInputs {
  readonly velocityUnits: UnitSystemName;
  /** In which the airflow is wanted. */
  readonly flowUnits: UnitSystemName;
  /** Actual over shown velocity: 1 for most meters; null where the list has the factor and the row does not. */
  readonly velocityFactor: number | null;
  /** Those that were taken. */
  readonly velocities: readonly number[];
  /** One for each, where they are sweeps. */
  readonly seconds: readonly number[] | null;
}

/** The whole area of an opening in ft²; null without a size and an area. */
export function wholeAreaFt2({ sizeUnits, areaUnits, width, height, area }: OpeningInputs): number | null {
  if (width === null) return area === null ? null : squareFeetOf(area, areaUnits);
  const inches = (length: number) => (sizeUnits === "si" ? inchesFromMillimeters(length) : length);
  return height === null ? roundArea(inches(width)) : rectangleArea(inches(width), inches(height));
}

/**
 * The area of an opening in ft² by which the average velocity is multiplied; null without a size and an area, or where a
 * figure is out of its range.
 */
export function countingAreaFt2(opening: OpeningInputs): number | null {
  if (opening.freeArea !== null) return squareFeetOf(opening.freeArea, opening.areaUnits);
  try {
    const whole = wholeAreaFt2(opening);
    return whole === null ? null : freeArea(whole, opening.factor ?? ASSUMED_FREE_AREA.metal.freeAreaRatio);
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}

/**
 * Returns the airflow that follows from what a row's own cells hold, as the templates calculate it; null without a
 * reading or an opening, or where one of them is out of its range.
 *
 * @returns cfm or L/s, by the units of the airflow
 */
export function airflowFromReadings(inputs: RowInputs): number | null {
  const { velocityUnits, flowUnits, velocityFactor, velocities, seconds } = inputs;
  if (velocities.length === 0 || (seconds !== null && seconds.length !== velocities.length)) return null;
  if (velocityFactor === null) return null;
  const velocitiesFpm = velocities.map((velocity) => fpmOf(velocity, velocityUnits));
  try {
    const areaFt2 = countingAreaFt2(inputs);
    if (areaFt2 === null) return null;
    const velocityFpm = seconds === null ? averageVelocity(velocitiesFpm) : sweepAverage(velocitiesFpm, seconds);
    const flowCfm = velocityFpm * velocityFactor * areaFt2;
    return flowUnits === "si" ? litersPerSecondFromCfm(flowCfm) : flowCfm;
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
