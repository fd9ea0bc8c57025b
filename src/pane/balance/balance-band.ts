import type { JobDetails } from "../../workbook/index.js";

/** The band around design that a group of outlets is to reach. */
export interface BalanceBand {
  readonly lowRatio: number;
  readonly highRatio: number;
  /** Whether the job states no limit of its own. */
  readonly isAssumed: boolean;
}

/** Common practice where a job says nothing: 10 % either way, and outside air never below design. */
const ASSUMED = { minus: 10, plus: 10, outsideMinus: 0, outsidePlus: 10 } as const;

/** Returns the band of the job for a kind of outlet: outside air has its own. */
export function balanceBand(kind: string, job: JobDetails): BalanceBand {
  const isOutside = kind === "outside air";
  const [minus, plus] = isOutside
    ? [job.outsideMinusPercent, job.outsidePlusPercent]
    : [job.minusPercent, job.plusPercent];
  const assumed = isOutside ? [ASSUMED.outsideMinus, ASSUMED.outsidePlus] : [ASSUMED.minus, ASSUMED.plus];
  return {
    lowRatio: 1 - (minus ?? assumed[0] ?? 0) / 100,
    highRatio: 1 + (plus ?? assumed[1] ?? 0) / 100,
    isAssumed: minus === null || plus === null,
  };
}
