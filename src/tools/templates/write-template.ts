import { writeXlsx } from "hucre/xlsx";
import { FONT_NAME, FONT_SIZE, type WorkbookPlan } from "../../workbook/index.js";
import type { CalculatedValues, Entries } from "./calculate-plan.js";
import { finishPackage } from "./finish-package.js";
import { writtenSheet } from "./written-sheet.js";

const FIXED_DATE = new Date("2026-01-01T00:00:00Z");

/** Works a plan out: every result, by sheet and address. */
export type Calculate = (plan: WorkbookPlan, entries: Entries) => CalculatedValues;

/**
 * Writes a plan as an .xlsx file with its calculated values stored.
 *
 * @param entries - What a person has filled in, by sheet and address; {} for a blank template
 */
export async function writeTemplate(plan: WorkbookPlan, entries: Entries, calculate: Calculate): Promise<Uint8Array> {
  const values = calculate(plan, entries);
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
    activeSheet: plan.sheets.length > 1 ? 1 : 0,
  });
  return finishPackage(bytes, plan);
}
