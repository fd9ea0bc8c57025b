import { isAbove } from "../check/compare-with-limit.js";
import type { Count, Percent } from "../units/quantity.js";

export type PlaneFault = "negative readings" | "too few readings above the limit";

/** What the readings say about the plane in which they were taken. */
export interface PlaneCheck {
  readonly suitable: boolean;
  /** Why the plane is not suitable; empty when it is. */
  readonly faults: readonly PlaneFault[];
  readonly readingCount: Count;
  readonly negativeCount: Count;
  readonly aboveLimitCount: Count;
  readonly aboveLimitPercent: Percent;
  /** What a reading must exceed to count, in the unit of the readings. */
  readonly limit: number;
}

/** More than this part of the readings must lie above the limit. */
const NEEDED_PERCENT = 75;

/** Counts readings above a part of the largest one, and negative ones. */
export function planeCheck(readings: readonly number[], limitRatio: number): PlaneCheck {
  let largest = 0;
  let negativeCount = 0;
  for (const reading of readings) {
    largest = Math.max(largest, reading);
    if (reading < 0) negativeCount += 1;
  }
  const limit = largest * limitRatio;
  const aboveLimitCount = readings.filter((reading) => isAbove(reading, limit)).length;
  const aboveLimitPercent = (100 * aboveLimitCount) / readings.length;
  const faults: PlaneFault[] = [];
  if (negativeCount > 0) faults.push("negative readings");
  if (!(aboveLimitPercent > NEEDED_PERCENT)) faults.push("too few readings above the limit");
  return {
    suitable: faults.length === 0,
    faults,
    readingCount: readings.length,
    negativeCount,
    aboveLimitCount,
    aboveLimitPercent,
    limit,
  };
}
