import { airflowBudget, type ChangeVerdict, changeVerdict, DomainError, type SweptResult } from "../../core/index.js";
import { type JobDetails, statedRepeat } from "../job/index.js";
import type { OutletRow } from "./outlet-row.js";

/** What an outlet gave before and after, with both questions answered. */
export interface OutletChange {
  readonly outlet: OutletRow;
  readonly before: number;
  readonly after: number;
  readonly verdict: ChangeVerdict;
}

type Doubts = Pick<
  JobDetails,
  "instrumentPercent" | "factorPercent" | "areaPercent" | "repeatPercent" | "repeatSweeps"
>;

/** The ± of an outlet's airflow (95 %) in percent: the sheet's own, or from what the job states. */
export function expandedPercent(outlet: OutletRow, job: Doubts): number {
  if (outlet.expandedPercent !== null) return outlet.expandedPercent;
  return airflowBudget({
    instrumentPercent: job.instrumentPercent ?? "assumed",
    factorPercent: outlet.factor === "given" ? (job.factorPercent ?? "assumed") : outlet.factor,
    areaPercent: job.areaPercent ?? "assumed",
    ...statedRepeat(job),
    points: null,
    pitot: null,
  }).expandedPercent;
}

/** How well both results repeat: the job's figure was found once, and counts once. */
function sweptSides(before: number, after: number, job: Doubts): readonly [SweptResult, SweptResult] {
  const { repeatPercent, repeatDegreesOfFreedom } = statedRepeat(job);
  const isAssumed = repeatPercent === "assumed";
  const sweepCount = isAssumed ? 1 : repeatDegreesOfFreedom + 1;
  const sweepPercent = isAssumed ? null : repeatPercent * Math.sqrt(sweepCount);
  return [
    { value: before, sweepCount, sweepPercent },
    { value: after, sweepCount, sweepPercent: null },
  ];
}

/**
 * Answers for an outlet whether it changed and by how much that is known; null where it cannot be said, as without an
 * airflow before.
 *
 * @param before - As found, in the unit of the job
 * @param after - As left
 */
export function outletChange(outlet: OutletRow, before: number, after: number, job: Doubts): OutletChange | null {
  try {
    const [first, second] = sweptSides(before, after, job);
    const share = expandedPercent(outlet, job) / 100;
    const verdict = changeVerdict(
      { ...first, expanded: share * Math.abs(before) },
      { ...second, expanded: share * Math.abs(after) },
      // The job's repeatability comes from sweeps in whose unit the display's step is stated.
      0,
    );
    return { outlet, before, after, verdict };
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
