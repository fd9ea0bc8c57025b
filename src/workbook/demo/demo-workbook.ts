import type { DemoJob } from "./demo-job.js";
import type { DemoSheet } from "./demo-sheet.js";
import { notesSheet } from "./notes-sheet.js";
import { FIRST_OUTLET_ROW, OUTLETS, OUTLETS_HEADING_ROW, outletsSheet } from "./outlets-sheet.js";
import { FIRST_ROOM_ROW, ROOMS, ROOMS_HEADING_ROW, roomsSheet } from "./rooms-sheet.js";
import { trunkSheet } from "./trunk-sheet.js";

/** The demonstration as plain data: sheets in order, and the names that their formulas use. */
export interface DemoWorkbook {
  readonly sheets: readonly DemoSheet[];
  readonly names: Readonly<Record<string, string>>;
}

/** Where the demonstration's two tables stand. */
export const DEMO_PLACES = {
  outlets: { sheet: OUTLETS, headingRow: OUTLETS_HEADING_ROW, firstRow: FIRST_OUTLET_ROW },
  rooms: { sheet: ROOMS, headingRow: ROOMS_HEADING_ROW, firstRow: FIRST_ROOM_ROW },
} as const;

/** Returns the demonstration job as a workbook. */
export function demoWorkbook(job: DemoJob): DemoWorkbook {
  return {
    sheets: [outletsSheet(job), roomsSheet(job), trunkSheet(job), notesSheet(job)],
    names: { Limit_minus: `${OUTLETS}!G3`, Limit_plus: `${OUTLETS}!G4` },
  };
}
