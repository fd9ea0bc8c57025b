import { AGREE_WITHIN_PERCENT } from "../template/face-sweep/face-sweep.js";
import { AGREEMENT } from "../template/face-sweep/sweeps-table.js";
import type { TakenSweep } from "./taken.js";

/** How near the sweeps of one face come to each other. */
export interface SweepAgreement {
  /** Highest less lowest, in percent of their mean; null below two sweeps or where the mean is not above 0. */
  readonly differencePercent: number | null;
  /** The word of the face sweep sheet: "agree", "repeat" or "one sweep". */
  readonly word: string;
  /** How near they should come, in percent. */
  readonly withinPercent: number;
}

/** Says whether the sweeps of a face agree, as the face sweep sheet does; null before the first sweep. */
export function sweepAgreement(sweeps: readonly TakenSweep[]): SweepAgreement | null {
  if (sweeps.length === 0) return null;
  const velocities = sweeps.map(({ velocity }) => velocity);
  const mean = velocities.reduce((sum, velocity) => sum + velocity, 0) / velocities.length;
  const withinPercent = AGREE_WITHIN_PERCENT;
  if (velocities.length === 1) return { differencePercent: null, word: AGREEMENT.once, withinPercent };
  if (!(mean > 0)) return { differencePercent: null, word: AGREEMENT.repeat, withinPercent };
  const differencePercent = ((Math.max(...velocities) - Math.min(...velocities)) / mean) * 100;
  const word = differencePercent <= withinPercent ? AGREEMENT.agree : AGREEMENT.repeat;
  return { differencePercent, word, withinPercent };
}
