import { writeXlsx } from "hucre/xlsx";
import type { WorkbookPlan } from "../template/sheet-plan.js";
import { FONT_NAME, FONT_SIZE } from "../template/style.js";
import type { CalculatedValues, Entries } from "./calculated-values.js";
import { finishedParts, type Parts } from "./finished-parts.js";
import { writtenSheet } from "./written-sheet.js";

const FIXED_DATE = new Date("2026-01-01T00:00:00Z");

/**
 * Writes a plan as the parts of an .xlsx file, its first sheet in front; of rows that are made while they are written
 * there is one, empty, for their looks.
 *
 * @param values - The result of every formula
 */
export async function writtenParts(plan: WorkbookPlan, entries: Entries, values: CalculatedValues): Promise<Parts> {
  const bytes = await writeXlsx({
    sheets: plan.sheets.map((sheet) =>
      writtenSheet(sheet, entries[sheet.name] ?? {}, values.get(sheet.name) ?? new Map()),
    ),
    namedRanges: plan.names.map(({ name, refersTo }) => ({ name, range: refersTo })),
    properties: {
      title: plan.title,
      description: plan.description,
      creator: "Vanesheet",
      created: FIXED_DATE,
      modified: FIXED_DATE,
    },
    defaultFont: { name: FONT_NAME, size: FONT_SIZE },
    activeSheet: 0,
  });
  return finishedParts(bytes, plan);
}
