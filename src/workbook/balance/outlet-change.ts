import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import {
  airflowBudget,
  type ChangeVerdict,
  type ComparedResult,
  changeVerdict,
  DomainError,
  standardFromExpanded,
} from "../../core/index.js";
import type { JobDetails } from "../job/index.js";
import type { OutletRow } from "./outlet-row.js";

/** What an outlet gave before and after, with both questions answered. */
export interface OutletChange {
  readonly outlet: OutletRow;
  readonly before: number;
  readonly after: number;
  readonly verdict: ChangeVerdict;
}

type Doubts = Pick<JobDetails, "instrumentPercent" | "factorPercent" | "areaPercent" | "repeatPercent">;

function repeatStandardPercent({ repeatPercent }: Doubts): number {
  return repeatPercent ?? standardFromExpanded(UNCERTAINTY_DEFAULTS.repeat.plusMinusPercent, 2);
}

function compared(value: number, outlet: OutletRow, job: Doubts): ComparedResult {
  const factorPercent = outlet.factor === "given" ? (job.factorPercent ?? "assumed") : outlet.factor;
  const { expandedPercent } = airflowBudget({
    instrumentPercent: job.instrumentPercent ?? "assumed",
    factorPercent,
    areaPercent: job.areaPercent ?? "assumed",
    repeatPercent: job.repeatPercent ?? "assumed",
    repeatDegreesOfFreedom: Number.POSITIVE_INFINITY,
  });
  const percent = outlet.expandedPercent ?? expandedPercent;
  const size = Math.abs(value) / 100;
  return { value, repeatStandard: repeatStandardPercent(job) * size, expanded: percent * size };
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
    const verdict = changeVerdict(compared(before, outlet, job), compared(after, outlet, job));
    return { outlet, before, after, verdict };
  } catch (cause) {
    if (cause instanceof DomainError) return null;
    throw cause;
  }
}
