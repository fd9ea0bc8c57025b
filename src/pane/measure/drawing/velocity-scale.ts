/** One step of the colours, with the velocities that it covers. */
export interface ScaleStep {
  readonly from: number;
  readonly to: number;
}

/** How readings are coloured: reversed, one of a few steps, or not taken. */
export interface VelocityScale {
  readonly steps: readonly ScaleStep[];
  readonly hasReversed: boolean;
  /** Step of a reading from 0; -1 for a reversed one, null for one that was not taken. */
  readonly stepOf: (reading: number | null) => number | null;
}

const STEPS = 5;

/** Divides the readings into steps of equal width between the lowest that is not reversed and the highest. */
export function velocityScale(readings: readonly (number | null)[]): VelocityScale {
  const forward = readings.filter((reading) => reading !== null && reading >= 0) as readonly number[];
  const low = Math.min(...forward);
  const high = Math.max(...forward);
  const count = forward.length === 0 ? 0 : high > low ? STEPS : 1;
  const width = (high - low) / Math.max(count, 1);
  return {
    steps: Array.from({ length: count }, (_, step) => ({ from: low + step * width, to: low + (step + 1) * width })),
    hasReversed: readings.some((reading) => reading !== null && reading < 0),
    stepOf: (reading) => {
      if (reading === null) return null;
      if (reading < 0) return -1;
      return width === 0 ? 0 : Math.min(Math.floor((reading - low) / width), count - 1);
    },
  };
}
