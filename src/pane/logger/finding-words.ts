import type { FindingName } from "../../logger/index.js";

/** What each finding is called in the pane. */
export const FINDING_LABELS: Readonly<Record<FindingName, string>> = {
  encoding: "Encoding",
  sheet: "Sheet",
  delimiter: "Between the columns",
  decimal: "Before the decimals",
  header: "Names of the columns",
  time: "Times",
  timeFormat: "Form of the times",
  velocity: "Velocities",
  units: "Unit of the velocities",
  range: "Range of the instrument",
};
