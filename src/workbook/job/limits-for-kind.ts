import { DESIGN_LIMITS, OUTSIDE_AIR_LIMITS } from "../../../shared/tables/design-limits.js";
import type { DesignLimits } from "../../core/index.js";
import type { JobDetails } from "./job-details.js";

/** The limits that an outlet is judged by. */
export interface LimitsOfKind extends DesignLimits {
  /** Whether the job states none of its own, so that the usual ones are taken. */
  readonly isAssumed: boolean;
}

/** The two details of a pair of limits. */
export const LIMIT_PAIRS = [
  ["minusPercent", "plusPercent"],
  ["outsideMinusPercent", "outsidePlusPercent"],
] as const satisfies readonly (readonly [minus: keyof JobDetails, plus: keyof JobDetails])[];

/**
 * Returns the limits of a job for a kind of outlet: outside air has its own.
 *
 * A job states both limits of a pair, or neither; then the usual ones hold.
 *
 * @returns Null where the job states only one of the two: nothing is judged then
 */
export function limitsForKind(kind: string, job: JobDetails): LimitsOfKind | null {
  const isOutside = kind === "outside air";
  const [minusKey, plusKey] = LIMIT_PAIRS[isOutside ? 1 : 0];
  const [minusPercent, plusPercent] = [job[minusKey], job[plusKey]];
  if (minusPercent === null && plusPercent === null) {
    const usual = isOutside ? OUTSIDE_AIR_LIMITS : DESIGN_LIMITS;
    return { minusPercent: usual.minusPercent, plusPercent: usual.plusPercent, isAssumed: true };
  }
  if (minusPercent === null || plusPercent === null) return null;
  return { minusPercent, plusPercent, isAssumed: false };
}
