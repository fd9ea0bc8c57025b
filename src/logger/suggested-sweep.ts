import type { LogSegment } from "./log-segments.js";
import type { LogSeries } from "./log-series.js";

/** Where a sweep may begin and end; a suggestion, for a person to look at. */
export interface SuggestedSweep {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  /** What is left out, as a sentence. */
  readonly reason: string;
}

/** Suggests start and end of the only sweep of a log, and says what that leaves out at its beginning and end. */
export function suggestedSweep({ readings }: LogSeries, only: LogSegment): SuggestedSweep {
  const { fromSeconds, toSeconds } = only;
  const before = readings.filter(({ seconds }) => seconds < fromSeconds).length;
  const after = readings.filter(({ seconds }) => seconds > toSeconds).length;
  if (readings.every(({ velocityFpm }) => velocityFpm === 0)) {
    return { fromSeconds, toSeconds, reason: "All of the log; every reading is 0." };
  }
  const left = [before > 0 ? `${before} at the beginning` : "", after > 0 ? `${after} at the end` : ""];
  const reason =
    before + after === 0
      ? "All of the log."
      : `Without the readings near zero: ${left.filter((part) => part !== "").join(" and ")}.`;
  return { fromSeconds, toSeconds, reason };
}
