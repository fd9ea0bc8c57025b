import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  [
    "1. As found",
    "Measure every outlet before anything is changed, and write down damper settings, doors and fan speed.",
  ],
  ["2. Work", "Balance, clean, seal or repair. After each change mind combustion appliances: test for spillage."],
  [
    "3. As left",
    "Measure with the same meter, at the same places of the same grille, with doors and fan as before. Size and factor are entered once: they cancel from the comparison.",
  ],
  [
    "4. Did it change?",
    "Answered from the sweeps: repeat each two or three times, before and after. One sweep each shows only a large change. A small change can still be shown this way, because both have the same error.",
  ],
  [
    "5. Is the amount known?",
    "Answered from the whole ± of both airflows, as if they were measured by two people with two meters. not well: say that it rose or fell, not by how many cfm.",
  ],
];

const SOURCES: readonly Note[] = [
  [
    "Did it change?",
    "Two sets of whole sweeps are compared (Student's test; Welch's from four sweeps on each side). One sweep each: by an assumed repeatability of 5 %.",
  ],
  [
    "Is the amount known?",
    "yes where the difference exceeds the ± of the change: the root of the sum of squares of both ± (ISO 13528).",
  ],
];

/** How to compare, and the sources. */
export const BEFORE_AFTER_NOTES = [STEPS, SOURCES] as const;
