import type { Note } from "../notes-sheet.js";

const STEPS: readonly Note[] = [
  [
    "1. Traverse location",
    "Look for straight duct: at least 8 diameters downstream of the last fitting and 2 upstream of the next; 2 and 0.5 are the minimum. Enter inside sizes, without any lining.",
  ],
  [
    "2. Plan",
    "With the size the grid shows its points: line, number and depth from the outside of the wall. Drill the holes at the heights over the lines, or turned as they say for a round duct. A flat oval takes holes in its long side, each with depths of its own, in equal areas. More than 8 lines or 10 points do not fit on this sheet.",
  ],
  [
    "3. Mark the probe",
    "Mark the depths on the probe with tape, keep it square to the wall and pointed into the flow. A depth listed twice is read once and typed twice.",
  ],
  [
    "4. Read",
    "One steady reading per point. Velocity from an anemometer, or velocity pressure from a Pitot tube: say which. Velocity pressures are averaged as velocities, never as pressures.",
  ],
  [
    "5. Check the location",
    "More than three quarters of the velocity pressures should exceed a tenth of the largest, and none should be negative. Otherwise look for another location. The colors show the profile; its spread is not an error of the average.",
  ],
  ["6. Close up", "Plug the holes air-tight and label the location, so that the next traverse finds it."],
];

const SOURCES: readonly Note[] = [
  [
    "Points",
    "Equal area and Method 1: 40 CFR 60 App. A-1, Method 1, §11. Log-linear and log-Tchebycheff: ISO 5802:2001, Tables 2 and 3, and their derivation. The usual number of points: common practice.",
  ],
  ["Straight duct", "40 CFR 60 App. A-1, Method 1, §11.1.1, in hydraulic diameters 2ab/(a + b)."],
  ["Location", "“Balancing of a Water and Air System”, training document, p. 16."],
  [
    "What a report holds",
    "Fan or unit, airflow and average velocity by design and as measured, size, area, static pressure and traverse location. The readings in their grid, each velocity pressure with its velocity, and the density of air that is not standard. So a county public-works specification asks (§15990).",
  ],
];

/** How to take a traverse, and its sources. */
export const DUCT_TRAVERSE_NOTES = [STEPS, SOURCES] as const;
