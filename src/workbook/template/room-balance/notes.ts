import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  ["1. Job", "Enter the job, the units and the limits on the sheet Job."],
  ["2. Systems", "One row per fan or unit, with its supply airflow as specified. The fan's record may follow later."],
  [
    "3. Rooms",
    "One row per room with its loads. The system's supply is split by heating and by cooling load; the larger share governs. An airflow entered under Design set overrides both.",
  ],
  [
    "4. Outlets",
    "One row per outlet, also returns and exhausts: clear size inside the frame, published factor or none, design airflow. Then up to six readings over equal parts of the grille. One reading is never enough.",
  ],
  [
    "5. Read the verdict",
    "low, within or high, by the limits of the job and from the unrounded percent. A cell that says no size or no design tells what is still missing; a room or system that says part measured has supply outlets without a reading. The column With ± says open where a limit lies within the ±. The decision rule of the job says which of the two columns counts: the airflow as measured (simple), or both ends of its ± (guarded).",
  ],
  [
    "6. Actual and standard air",
    "Airflows are actual air, as it is at the outlet. With a temperature on the sheet Job, Standard airflow is the same mass at 0.075 lb/ft³. A thermal meter that shows standard velocity has to be corrected first: AIR.ACTUAL.",
  ],
  [
    "7. Re-test",
    "On the sheet Re-test a witness names a seed, which draws a tenth of the measured outlets. Read them again before the witness, print the sheet and have it signed. Where one differs, recalculate, calibrate the meter and test the whole system again (UFGS-15951N, 3.2.4).",
  ],
  [
    "8. Supply against return",
    "The sheet Systems subtracts return and outside air from the supply, once all that are listed are measured. The rest leaks, or a factor is wrong: supply and return grilles need different factors.",
  ],
];

const SOURCES: readonly Note[] = [
  [
    "What a report holds",
    "Per outlet its place, area and system, make and type, size and factor, design and actual velocity and airflow; per fan its airflows, static pressures, speed and motor: as a county public-works specification (§15990, Balance requirements) asks.",
  ],
  [
    "Percent of a total",
    "Always the sum measured over the sum of design of the same outlets, never an average of percents.",
  ],
  ["Share by load", "Room airflow = system airflow × room load / sum of loads of the system. Common practice."],
];

/** How to fill the balance, and its sources. */
export const ROOM_BALANCE_NOTES = [STEPS, SOURCES] as const;
