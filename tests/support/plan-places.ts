import type { WorkbookPlan } from "../../src/workbook/index.js";
import { formatAddress, parseRange } from "../../src/xlsx/index.js";

/**
 * Where a column of a plan's table is: tests ask the plan, so that a column more breaks none of them.
 *
 * @param header - As the table heads it
 */
export function columnUnder(plan: WorkbookPlan, tableName: string, header: string): string {
  const table = plan.sheets.flatMap(({ tables }) => tables).find(({ name }) => name === tableName);
  const range = parseRange(table?.range ?? "");
  const index = table?.columns.findIndex(({ name }) => name === header) ?? -1;
  if (range === undefined || index < 0) throw new Error(`${tableName} has no column ${header}.`);
  return formatAddress(1, range.firstColumn + index).slice(0, -1);
}

/** The cells of a row from one column to another: `J9:O9`. */
export function cellsUnder(
  plan: WorkbookPlan,
  tableName: string,
  headers: readonly [string, string],
  row: number,
): string {
  return headers.map((header) => cellUnder(plan, tableName, header, row)).join(":");
}

/** The cell of a row in a column: `J9`. */
export function cellUnder(plan: WorkbookPlan, tableName: string, header: string, row: number): string {
  return `${columnUnder(plan, tableName, header)}${row}`;
}
