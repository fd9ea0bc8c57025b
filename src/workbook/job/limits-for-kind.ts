import { DESIGN_LIMITS, OUTSIDE_AIR_LIMITS } from "../../../shared/tables/design-limits.js";
import type { DesignLimits } from "../../core/index.js";
import type { JobDetails } from "./job-details.js";

/** The limits that an outlet is judged by. */
export interface LimitsOfKind extends DesignLimits {
  /** Whether the job states none of its own, so that the usual ones are taken. */
  readonly isAssumed: boolean;
}

/** Returns the limits of a job for a kind of outlet: outside air has its own. */
export function limitsForKind(kind: string, job: JobDetails): LimitsOfKind {
  const isOutside = kind === "outside air";
  const usual = isOutside ? OUTSIDE_AIR_LIMITS : DESIGN_LIMITS;
  const minus = isOutside ? job.outsideMinusPercent : job.minusPercent;
  const plus = isOutside ? job.outsidePlusPercent : job.plusPercent;
  return {
    minusPercent: minus ?? usual.minusPercent,
    plusPercent: plus ?? usual.plusPercent,
    isAssumed: minus === null || plus === null,
  };
}
