/** One column of the job summary, which a roll-up reads by its header. */
export interface JobSummaryColumn {
  readonly key: string;
  /** The header, the same in every job. */
  readonly header: string;
  /** What stands in it, with its unit. */
  readonly meaning: string;
}

/** The sheet and the table that a roll-up looks for. */
export const JOB_SUMMARY_SHEET = "Job summary";
export const JOB_SUMMARY_TABLE = "JobSummary";

/**
 * The columns of the job summary, one row an outlet, in their fixed order.
 *
 * A column keeps its header and its meaning for good; a new one goes behind the last. Quantities are in the unit
 * system that the column "Units" names: ip (in, cfm) or si (mm, L/s).
 */
export const JOB_SUMMARY_COLUMNS = [
  { key: "jobId", header: "Job number", meaning: "The job as the office files it; text." },
  { key: "jobName", header: "Job name", meaning: "What the job is called; text." },
  { key: "date", header: "Date", meaning: "The day of the last readings; a date." },
  { key: "technician", header: "Technician", meaning: "Who took the readings; text." },
  { key: "system", header: "System", meaning: "The fan or unit that serves the outlet; text." },
  { key: "room", header: "Room", meaning: "The room; text." },
  { key: "outlet", header: "Outlet", meaning: "The outlet's tag, used once in a job; text." },
  { key: "kind", header: "Kind", meaning: "supply, return, exhaust or outside air." },
  { key: "shape", header: "Shape", meaning: "rectangular or round." },
  { key: "width", header: "Width", meaning: "Clear width or diameter; in or mm." },
  { key: "height", header: "Height", meaning: "Clear height, empty for round; in or mm." },
  { key: "factor", header: "Factor", meaning: "Free-area factor used; ratio." },
  { key: "assumed", header: "Factor assumed", meaning: "yes where nobody published the factor, no otherwise." },
  {
    key: "units",
    header: "Units",
    meaning: "ip for in, fpm, cfm; si for mm, m/s, L/s; for every quantity of the row.",
  },
  { key: "design", header: "Design airflow", meaning: "cfm or L/s." },
  {
    key: "before",
    header: "Measured before",
    meaning: "As found, before an adjustment; cfm or L/s, empty where not measured.",
  },
  { key: "after", header: "Measured after", meaning: "As left; cfm or L/s, empty where not measured." },
  {
    key: "plusMinus",
    header: "Plus or minus",
    meaning: "± (95 %) of the last airflow; cfm or L/s.",
  },
  { key: "percent", header: "Percent of design", meaning: "Last airflow in percent of design, unrounded." },
  {
    key: "verdict",
    header: "Verdict",
    meaning: "low, within or high, by the limits of the job; open where its guarded rule leaves it so.",
  },
  { key: "note", header: "Note", meaning: "Free text." },
] as const satisfies readonly JobSummaryColumn[];

export type JobSummaryKey = (typeof JOB_SUMMARY_COLUMNS)[number]["key"];
