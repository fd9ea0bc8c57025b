import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  [
    "1. Plane",
    "Look for straight duct: at least 8 diameters downstream of the last fitting and 2 upstream of the next; 2 and 0.5 are the minimum. Enter inside sizes, without any lining.",
  ],
  [
    "2. Plan",
    "With the size the grid shows its points: line, number and depth from the outside of the wall. Drill the holes at the heights over the lines, or turned as they say for a round duct. More than 8 lines or 10 points do not fit on this sheet.",
  ],
  [
    "3. Mark the probe",
    "Mark the depths on the probe with tape, keep it square to the wall and pointed into the flow. A depth that stands twice is read once and typed twice.",
  ],
  [
    "4. Read",
    "One steady reading a point. Velocity from an anemometer, or velocity pressure from a Pitot tube: say which. Velocity pressures are averaged as velocities, never as pressures.",
  ],
  [
    "5. Look at the plane",
    "More than three quarters of the velocity pressures should exceed a tenth of the largest, and none should be negative. Otherwise move the plane. The coloured velocities show the profile; its spread is no error of the mean.",
  ],
  ["6. Close up", "Plug the holes air-tight and label the plane, so that the next traverse finds it."],
];

const SOURCES: readonly Note[] = [
  [
    "Points",
    "Equal area and Method 1: 40 CFR 60 App. A-1, Method 1, §11. Log-linear and log-Tchebycheff: ISO 5802:2001, Tables 2 and 3, and their derivation. The usual number of points: common practice.",
  ],
  ["Straight duct", "40 CFR 60 App. A-1, Method 1, §11.1.1, in hydraulic diameters 2ab/(a + b)."],
  ["Plane", "“Balancing of a Water and Air System”, training document, p. 16."],
  [
    "What a report holds",
    "Fan or unit, design and measured airflow and mean velocity, size and area, static pressure, place of the plane, the readings in their grid, each velocity pressure with its velocity, and the density where the air is not standard: as a county public-works specification (§15990) and the training document ask.",
  ],
];

/** How to take a traverse, and its sources. */
export const DUCT_TRAVERSE_NOTES = [STEPS, SOURCES] as const;
