import { metersPerSecondFromFpm, type UnitSystemName } from "../../core/index.js";
import type { LogSweep } from "../../logger/index.js";
import { shortFigure } from "../controls/shown-figure.js";

/** A sweep as the list of sweeps takes it: in the job's unit. */
export interface TakenLogSweep {
  readonly velocity: string;
  readonly seconds: string;
}

/** Whether a sweep lasts, so that it has a weight among others. */
export const isLasting = ({ durationSeconds }: LogSweep): boolean => durationSeconds > 0;

/** Spells a sweep of a log for the list of sweeps. */
export function takenLogSweep({ meanFpm, durationSeconds }: LogSweep, units: UnitSystemName): TakenLogSweep {
  const average = units === "si" ? metersPerSecondFromFpm(meanFpm) : meanFpm;
  return {
    velocity: shortFigure(average, units === "si" ? 3 : 1),
    seconds: shortFigure(durationSeconds, 1),
  };
}
