import type { DemoJob } from "./demo-job.js";
import type { DemoSheet } from "./demo-sheet.js";

const NOTES: readonly (readonly [topic: string, text: string])[] = [
  ["What this is", ""],
  [
    "How to fill it",
    "Type over sand-coloured cells. A round opening has a width (its diameter) and no height. Leave a reading that you did not take empty; type 0 only where you measured 0.",
  ],
  [
    "What is calculated",
    "Airflow = area × free-area factor × average velocity. Select a cell to see its formula; begin one of your own with =VANE. for the list.",
  ],
  [
    "Free-area factor",
    "0.75 is assumed where none is given. That figure comes from a fuel-gas code's allowance for metal louvers; the maker's published factor is better, and its guess may be 10 % off.",
  ],
  [
    "How far to trust it",
    "A field reading may be 10 to 15 % off (common practice, no source). The same meter on the same outlet compares well before against after; small differences from design prove little.",
  ],
  [
    "Limits",
    "The limits in the outlets' sheet are yours to set. The job's specification and the local code come first.",
  ],
  [
    "Cautions",
    "Keep hands and probes clear of fans and belts. Use a ladder as its maker says. Fuel-burning appliances, refrigerant, wiring and asbestos are for licensed people. These are estimates, not a certified balance report.",
  ],
];

/** Returns the sheet of notes: what the job is, how to fill it, and the cautions. */
export function notesSheet(job: DemoJob): DemoSheet {
  const last = 2 + NOTES.length;
  const entries = NOTES.flatMap(([topic, text], index) => [
    [`A${3 + index}`, topic] as const,
    [`B${3 + index}`, text === "" ? job.about : text] as const,
  ]);
  return {
    name: "Notes",
    cells: { A1: "Notes", ...Object.fromEntries(entries) },
    looks: [
      { range: "A1", look: "title" },
      { range: `A3:A${last}`, look: "label" },
      { range: `B3:B${last}`, look: "paragraph" },
    ],
    accepts: [],
    verdicts: [],
    merges: [],
    widths: [150, 720],
    frozenRows: 0,
    frozenColumns: 0,
  };
}
