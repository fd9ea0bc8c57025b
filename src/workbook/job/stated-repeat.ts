import type { AirflowDoubt } from "../../core/index.js";
import type { JobDetails } from "./job-details.js";

/** The job's own repeat figure as a budget takes it; "assumed" while the figure or the count behind it is not stated. */
export function statedRepeat({
  repeatPercent,
  repeatSweeps,
}: Pick<JobDetails, "repeatPercent" | "repeatSweeps">): Pick<AirflowDoubt, "repeatPercent" | "repeatDegreesOfFreedom"> {
  const isStated = repeatPercent !== null && repeatSweeps !== null && repeatSweeps >= 2;
  return isStated
    ? { repeatPercent, repeatDegreesOfFreedom: Math.floor(repeatSweeps) - 1 }
    : { repeatPercent: "assumed", repeatDegreesOfFreedom: Number.POSITIVE_INFINITY };
}
