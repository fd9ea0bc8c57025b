import type { UnitSystemName } from "../../../core/index.js";

/** What a summary says of itself. */
export interface SummaryDetails {
  /** The units in which airflow is shown. */
  readonly units: UnitSystemName;
  /** Where the jobs came from and when, in a sentence. */
  readonly about: string;
}
