import type { LogQuestion } from "../../logger/index.js";

/** What each question is called in the pane. */
export const QUESTION_LABELS: Readonly<Record<LogQuestion, string>> = {
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
