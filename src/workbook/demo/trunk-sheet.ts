import type { DemoJob } from "./demo-job.js";
import { content, type DemoSheet, rowCells } from "./demo-sheet.js";
import { FIRST_ROOM_ROW, ROOMS } from "./rooms-sheet.js";

const FIRST_GRID_ROW = 8;

/** Returns the sheet of a duct traverse: a grid of readings, the mean velocity and the airflow. */
export function trunkSheet(job: DemoJob): DemoSheet {
  const { trunk } = job;
  const last = FIRST_GRID_ROW + trunk.readingsFpm.length - 1;
  const grid = `B${FIRST_GRID_ROW}:D${last}`;
  const supply = `${ROOMS}!C${FIRST_ROOM_ROW + job.rooms.length}`;
  const result = last + 2;
  return {
    name: "Trunk traverse",
    cells: {
      A1: trunk.name,
      A2: "Each reading stands in the middle of an equal part of the duct. Invented, like the rest of this house.",
      A4: "Inside width, in",
      B4: content(trunk.widthIn),
      A5: "Inside height, in",
      B5: content(trunk.heightIn),
      A7: "Readings, fpm",
      ...rowCells(7, "ABCD", ["", "left", "middle", "right"]),
      ...Object.assign(
        {},
        ...trunk.readingsFpm.map((row, index) =>
          rowCells(FIRST_GRID_ROW + index, "ABCD", [
            ["top", "middle", "bottom"][index] ?? `row ${index + 1}`,
            ...row.map(content),
          ]),
        ),
      ),
      [`A${result}`]: "Average velocity, fpm",
      [`B${result}`]: `=VANE.TRAVERSE.AVERAGE(${grid},COUNT(${grid}))`,
      [`A${result + 1}`]: "Airflow, cfm",
      [`B${result + 1}`]: `=VANE.AIRFLOW.DUCT(B4,B5,${grid},COUNT(${grid}))`,
      [`A${result + 2}`]: "Sum of the supply outlets, cfm",
      [`B${result + 2}`]: `=${supply}`,
      [`A${result + 3}`]: "Spread of the readings, %",
      [`B${result + 3}`]: `=VANE.TRAVERSE.SPREAD(${grid},COUNT(${grid}))`,
    },
    looks: [
      { range: "A1", look: "title" },
      { range: "A2", look: "lead" },
      { range: "A4:A5", look: "label" },
      { range: "B4:B5", look: "input" },
      { range: "A7", look: "label" },
      { range: "B7:D7", look: "header" },
      { range: `A${FIRST_GRID_ROW}:A${last}`, look: "label" },
      { range: grid, look: "input", format: "0" },
      { range: `A${result}:A${result + 3}`, look: "label" },
      { range: `B${result}:B${result + 3}`, look: "result", format: "#,##0" },
    ],
    accepts: [
      { range: "B4:B5", from: 1, to: 240 },
      { range: grid, from: -10_000, to: 10_000 },
    ],
    verdicts: [],
    merges: [],
    widths: [210, 76, 76, 76],
    frozenRows: 0,
    frozenColumns: 0,
  };
}
