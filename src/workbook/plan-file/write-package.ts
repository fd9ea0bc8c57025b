import { writeXlsx } from "hucre/xlsx";
import type { WorkbookPlan } from "../template/sheet-plan.js";
import { FONT_NAME, FONT_SIZE } from "../template/style.js";
import type { CalculatedValues, Entries } from "./calculated-values.js";
import { type Finish, finishPackage, type Parts } from "./finish-package.js";
import { hasManyRows, withManyRows } from "./many-rows.js";
import { writtenSheet } from "./written-sheet.js";

const FIXED_DATE = new Date("2026-01-01T00:00:00Z");

/**
 * Writes a plan as an .xlsx file: the same bytes for the same plan.
 *
 * @param values - The result of every formula
 * @param activeSheet - The sheet that shows when the file is opened, from 0
 */
export async function writePackage(
  plan: WorkbookPlan,
  entries: Entries,
  values: CalculatedValues,
  activeSheet: number,
  finish: Finish,
): Promise<Uint8Array> {
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
    activeSheet: Math.min(activeSheet, plan.sheets.length - 1),
  });
  const more = (parts: Parts) => finish.more(withLongReports(parts, plan, values));
  return finishPackage(bytes, plan, { ...finish, more });
}

function withLongReports(parts: Parts, plan: WorkbookPlan, values: CalculatedValues): Parts {
  const written = plan.sheets.flatMap((sheet, index) => {
    if (!hasManyRows(sheet)) return [];
    const name = `xl/worksheets/sheet${index + 1}.xml`;
    return [[name, withManyRows(parts[name] ?? "", sheet, values.get(sheet.name) ?? new Map())] as const];
  });
  return { ...parts, ...Object.fromEntries(written) };
}
