import type { JobDetails } from "../../workbook/index.js";

/** The job for every tab: stated by the workbook's sheet of job details, or by the pane while there is none. */
export interface JobContext {
  readonly details: JobDetails;
  readonly statedBy: "workbook" | "pane";
  /** What on the job's sheet cannot be read. */
  readonly findings: readonly string[];
  /** Density of the air from its temperature, elevation and humidity, in lb/ft³; null where no temperature is stated. */
  readonly densityLbFt3: number | null;
  /** Writes details into the workbook where it has a place for them, and keeps them in the pane otherwise. */
  readonly state: (changes: Partial<JobDetails>) => Promise<void>;
  /** Reads the workbook's job again, as after a sheet was added. */
  readonly reload: () => Promise<void>;
  /** Takes details over into a sheet of job details that has just come; does nothing where there is none. */
  readonly carry: (details: Partial<JobDetails>) => Promise<void>;
}
