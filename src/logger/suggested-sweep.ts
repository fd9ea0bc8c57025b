import type { LogSeries } from "./log-series.js";
import { median } from "./median.js";

/** Below this part of the usual velocity the probe is taken to be out of the air stream. Common practice, no source. */
const NEAR_ZERO_RATIO = 0.1;

/** Where a sweep may begin and end; a suggestion, for a person to look at. */
export interface SuggestedSweep {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** What is left out, as a sentence. */
  readonly reason: string;
}

/** Suggests the log without the readings near zero at its beginning and end, where the probe was not yet in the air. */
export function suggestedSweep({ readings }: LogSeries): SuggestedSweep | null {
  const sizes = readings.map(({ velocityFpm }) => Math.abs(velocityFpm)).filter((size) => size > 0);
  const [first] = readings;
  const last = readings.at(-1);
  if (first === undefined || last === undefined) return null;
  const whole = { fromSeconds: first.seconds, toSeconds: last.seconds };
  if (sizes.length === 0) return { ...whole, reason: "All of the log; every reading is 0." };
  // The median of what is above zero alone would sink where most of the log is idle; its upper half stays in the air.
  const middle = median(sizes);
  const usual = median(sizes.filter((size) => size >= middle));
  const isInAir = ({ velocityFpm }: { readonly velocityFpm: number }) =>
    Math.abs(velocityFpm) >= NEAR_ZERO_RATIO * usual;
  const begin = readings.findIndex(isInAir);
  const end = readings.findLastIndex(isInAir);
  const before = begin;
  const after = readings.length - 1 - end;
  const from = readings[begin];
  const to = readings[end];
  if (from === undefined || to === undefined || before + after === 0) return { ...whole, reason: "All of the log." };
  const left = [before > 0 ? `${before} at the beginning` : "", after > 0 ? `${after} at the end` : ""];
  return {
    fromSeconds: from.seconds,
    toSeconds: to.seconds,
    reason: `Without the readings near zero: ${left.filter((part) => part !== "").join(" and ")}.`,
  };
}
