import type { Note } from "../notes-sheet.js";

/** How to fill the summary. */
export const JOB_SUMMARY_STEPS: readonly Note[] = [
  ["1. Job", "Enter the job, the units and the limits on the sheet Job; the first columns repeat them in every row."],
  [
    "2. Outlets",
    "One row per outlet. Paste airflows as values (Paste Special, Values) from the sheets on which they were measured. As found and as left, with their ±.",
  ],
  [
    "3. Percent and verdict",
    "From the airflow as left, or as found where nothing was adjusted. A row that was not measured stays empty; it never counts as zero.",
  ],
  [
    "4. Roll-up",
    "Keep one file per job in one folder; the roll-up reads this sheet by its name and its headers. Do not rename either.",
  ],
];
