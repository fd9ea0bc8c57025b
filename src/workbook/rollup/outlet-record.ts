import type { Cfm, DesignDecision, Inch, Percent, Ratio, UnitSystemName } from "../../core/index.js";
import type { OutletKind } from "../lists/index.js";

/** What was measured: an outlet of a kind, or the air in a duct, which is that of its outlets once more. */
export type MeasuredKind = OutletKind | "duct";

/** low, within or high by the job's rule; open where a guarded rule leaves it so. */
export type OutletVerdict = DesignDecision["decision"];

/** In which sum an outlet stands. A missing value is never zero: only "compared" counts against design. */
export type OutletStatus =
  /** Has a design and an airflow. */
  | "compared"
  /** Has no airflow. */
  | "not measured"
  /** Has an airflow but no design. */
  | "no design"
  /** A figure of it cannot be taken; an issue says which and why. */
  | "faulty";

/** One outlet of a job as the roll-up counts it; quantities in inch-pound units, whatever the job was measured in. */
export interface OutletRecord {
  readonly sheet: string;
  readonly row: number;
  readonly status: OutletStatus;
  readonly jobNumber: string;
  readonly jobName: string;
  /** ISO 8601, null where none is stated. */
  readonly date: string | null;
  readonly technician: string;
  readonly system: string;
  readonly room: string;
  readonly outlet: string;
  readonly kind: MeasuredKind | null;
  readonly widthIn: Inch | null;
  readonly heightIn: Inch | null;
  readonly factorRatio: Ratio | null;
  readonly isFactorAssumed: boolean | null;
  /** What the job was measured in; null where it does not say. */
  readonly units: UnitSystemName | null;
  readonly designCfm: Cfm | null;
  /** As found, before an adjustment. */
  readonly beforeCfm: Cfm | null;
  /** The verdict of the airflow as found, where there is one as left too; null where nothing is judged. */
  readonly foundVerdict: OutletVerdict | null;
  /** As left. */
  readonly afterCfm: Cfm | null;
  /** The last airflow: as left, or as found where nothing was adjusted. */
  readonly measuredCfm: Cfm | null;
  /** The ± of the last airflow (95 %). */
  readonly plusMinusCfm: Cfm | null;
  readonly percent: Percent | null;
  /** Null where there is no percent, or no limit to judge it by. */
  readonly verdict: OutletVerdict | null;
  readonly note: string;
  /** The meter as the job states it, and its serial number. */
  readonly instrument: string;
  readonly instrumentSerial: string;
  /** The day on its certificate, ISO 8601. */
  readonly calibratedOn: string | null;
  /** The last day on which its calibration holds, as the job states it, ISO 8601. */
  readonly calibrationDueOn: string | null;
  readonly customer: string;
  readonly site: string;
}
