import type { UnitSystemName } from "../../../core/index.js";
import type { RollUpChanges } from "../compare/compare-roll-ups.js";

/** What a summary says of itself. */
export interface SummaryDetails {
  /** The units in which airflow is shown. */
  readonly units: UnitSystemName;
  /** Where the jobs came from and when, in a sentence. */
  readonly about: string;
  /** How long a calibration was taken to hold. */
  readonly calibrationMonths: number;
  /** What is different from an earlier roll-up; null where none was compared with. */
  readonly changes: RollUpChanges | null;
}
