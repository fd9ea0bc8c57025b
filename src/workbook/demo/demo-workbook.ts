import type { DemoJob } from "./demo-job.js";
import type { DemoSheet } from "./demo-sheet.js";
import { notesSheet } from "./notes-sheet.js";
import { OUTLETS, outletsSheet } from "./outlets-sheet.js";
import { roomsSheet } from "./rooms-sheet.js";
import { trunkSheet } from "./trunk-sheet.js";

/** The demonstration as plain data: sheets in order, and the names that their formulas use. */
export interface DemoWorkbook {
  readonly sheets: readonly DemoSheet[];
  readonly names: Readonly<Record<string, string>>;
}

/** Returns the demonstration job as a workbook. */
export function demoWorkbook(job: DemoJob): DemoWorkbook {
  return {
    sheets: [outletsSheet(job), roomsSheet(job), trunkSheet(job), notesSheet(job)],
    names: { Limit_minus: `${OUTLETS}!D3`, Limit_plus: `${OUTLETS}!D4` },
  };
}
