import { type CellPlan, TEMPLATES, type TemplateId, type TemplateOptions } from "../workbook/index.js";
import { type CalculatedValues, writeTemplate } from "../workbook/plan-file/index.js";
import { formulaCellsOf, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../xlsx/index.js";
import { calculateXlsx } from "./calculate-xlsx.js";

const isFormula = ({ content }: CellPlan) => typeof content === "string" && content.startsWith("=");

/**
 * Makes a template that is not as its file has it, from its plan, and calculates it.
 *
 * @param id - Which template
 * @param options - What it is to hold otherwise
 * @returns The blank workbook, every result stored
 */
export async function plannedTemplate(id: TemplateId, options: TemplateOptions): Promise<Workbook> {
  const plan = TEMPLATES[id]("", options);
  const empty: CalculatedValues = new Map(
    plan.sheets.map(({ name, cells }) => [
      name,
      new Map(cells.filter(isFormula).map(({ at }) => [at, { value: "", message: "" }] as const)),
    ]),
  );
  const fileName = `${id}.xlsx`;
  const uncalculated = openWorkbook(await writeTemplate(plan, {}, () => empty), fileName);
  const formulas = uncalculated.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(uncalculated, name))].map(({ row, column }) => ({ sheet: name, row, column })),
    );
  const { edits } = calculateXlsx(uncalculated, formulas);
  return openWorkbook(patchWorkbook(uncalculated, edits), fileName);
}
