import type { WorkbookPlan } from "../template/sheet-plan.js";
import type { CalculatedValues } from "./calculated-values.js";
import { writePackage } from "./write-package.js";

/**
 * Writes a workbook of results as an .xlsx file. It holds no cell function of the add-in and does not ask for it.
 *
 * @param values - The result of every formula, by sheet and address
 */
export async function writeReport(plan: WorkbookPlan, values: CalculatedValues): Promise<Uint8Array> {
  return writePackage(plan, {}, values, 0, { more: (parts) => parts, level: 1 });
}
