import { createModel, typedContent } from "../../engine/index.js";
import type { CellContent, WorkbookPlan } from "../../workbook/index.js";
import { type CalculatedCell, type CalculatedValues, type Entries, place } from "../../workbook/plan-file/index.js";

/** Calculates a plan in the page's engine, with entries in place of its empty inputs. */
export function calculatePlan(plan: WorkbookPlan, entries: Entries): CalculatedValues {
  const contents = plan.sheets.map((sheet) => {
    const planned = sheet.cells.map(({ at, content }) => [at, content] as const);
    return new Map<string, CellContent>([...planned, ...Object.entries(entries[sheet.name] ?? {})]);
  });
  const model = createModel({
    sheets: plan.sheets.map((sheet, index) => ({
      id: sheet.name,
      name: sheet.name,
      colNumber: 60,
      rowNumber: 150,
      cells: Object.fromEntries(
        [...(contents[index] ?? [])].map(([at, content]) => [at, typedContent(content)] as const),
      ),
    })),
  });
  return new Map(
    plan.sheets.map((sheet, index) => {
      const results = new Map<string, CalculatedCell>();
      for (const [at, content] of contents[index] ?? []) {
        if (typeof content !== "string" || !content.startsWith("=")) continue;
        const { value, message = "" } = model.getters.getEvaluatedCell({ sheetId: sheet.name, ...place(at) });
        results.set(at, { value: value ?? "", message });
      }
      return [sheet.name, results];
    }),
  );
}
