import { cell, EMPTY_SHEET } from "../../template/plan-parts.js";
import type { SheetPlan } from "../../template/sheet-plan.js";

/** A sheet of words. */
export function notesReport(name: string, notes: readonly (readonly [topic: string, text: string])[]): SheetPlan {
  const firstRow = 4;
  return {
    ...EMPTY_SHEET,
    name,
    role: "report",
    columnWidths: [26, 104],
    rowHeights: {
      1: 26,
      ...Object.fromEntries(
        notes.map(([, text], index) => [firstRow + index, 5 + 13.5 * Math.ceil(text.length / 118)]),
      ),
    },
    cells: [
      cell("A1", name, "title"),
      cell("A2", "What the figures are, and what they are not.", "lead"),
      ...notes.flatMap(([topic, text], index) => [
        cell(`A${firstRow + index}`, topic, "topic"),
        cell(`B${firstRow + index}`, text, "paragraph"),
      ]),
    ],
    print: {
      orientation: "landscape",
      area: `A1:B${firstRow + notes.length - 1}`,
      repeatedRows: null,
      fitToPagesHigh: null,
    },
  };
}
