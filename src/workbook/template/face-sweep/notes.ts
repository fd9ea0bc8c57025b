import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  [
    "1. Opening",
    "Clear size inside the frame, and the factor that is published for this grille and this way of measuring.",
  ],
  [
    "2. Sweep",
    "Start the averaging of the meter and cover the whole grille in strips, at an even, slow pace. End where you began. Keep the distance to the grille that the factor was published for.",
  ],
  ["3. Repeat", "Sweep again, crosswise. Enter the average that the meter shows and the seconds of each sweep."],
  [
    "4. Agreement",
    "agree: the sweeps are close enough. repeat: they are not; look for gusts, a door, a moving damper, and sweep again. one sweep: not enough to tell.",
  ],
  [
    "5. Damper nearly closed",
    "A grille that blows in separate jets cannot be measured this way: open the damper or use a capture hood.",
  ],
];

const SOURCES: readonly Note[] = [
  ["Average of sweeps", "Each sweep counts by its time: sum of velocity × seconds / sum of seconds."],
  ["Agreement of 5 %", "Common practice."],
  [
    "± from the sweeps",
    "With two or more sweeps the ± uses their own scatter, not the figure on the sheet Job (JCGM 100:2008, 4.2). The step of the meter’s display is the least (F.2.2.1).",
  ],
  [
    "Indicated velocity",
    "A reading over the whole area of a grille compares grilles. It becomes an airflow only through its factor (IMO MSC/Circ. 729, App. 2).",
  ],
];

/** How to sweep a face, and the sources. */
export const FACE_SWEEP_NOTES = [STEPS, SOURCES] as const;
