import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  ["1. Face", "Clear size inside the frame, and the factor that is published for this face and this way of measuring."],
  [
    "2. Sweep",
    "Start the averaging of the meter, cover the whole face at an even, slow pace in strips, and end where you began. Keep the distance to the face that the factor was published for.",
  ],
  ["3. Repeat", "Sweep again, crosswise. Enter the mean that the meter shows and the seconds of each sweep."],
  [
    "4. Agreement",
    "agree: the sweeps come near enough. repeat: they do not; look for gusts, a door, a moving damper, and sweep again. one sweep: not enough to tell.",
  ],
  [
    "5. Damper nearly closed",
    "A face that blows in separate jets cannot be measured this way: open the damper or use a capture hood.",
  ],
];

const SOURCES: readonly Note[] = [
  ["Mean of sweeps", "Each sweep counts by its time: sum of velocity × seconds / sum of seconds. Derived."],
  ["Agreement of 5 %", "Common practice, no source."],
  [
    "± from the sweeps",
    "With two or more sweeps the ± takes their own scatter, s / √n with n − 1 degrees of freedom (JCGM 100:2008, 4.2), instead of the figure on the sheet Job.",
  ],
  [
    "Indicated velocity",
    "A reading over the whole area of a grille compares faces; it becomes an airflow only through its factor (IMO MSC/Circ. 729, App. 2).",
  ],
];

/** How to sweep a face, and the sources. */
export const FACE_SWEEP_NOTES = [STEPS, SOURCES] as const;
