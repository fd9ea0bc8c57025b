import { columnLetters, formatAddress, parseRange } from "../../../xlsx/address.js";
import { type BlockEdit, HostError, type WorkbookHost } from "../../host.js";
import { hostSource } from "../../source/index.js";
import type { CellContent, SheetPlan, TemplatePlan } from "../sheet-plan.js";
import { beforeAfter } from "./before-after.js";
import { type Visits, visitsOf } from "./from-visits.js";
import type { TakenCell } from "./visit-cells.js";

/** The sheet of a plan that is filled, and where its table begins. */
function tableOf({ sheets }: TemplatePlan) {
  const sheet = sheets.find(({ role }) => role === "work");
  const table = sheet?.tables[0];
  const range = parseRange(table?.range ?? "");
  if (sheet === undefined || table === undefined || range === undefined) throw new Error("There is no table to fill.");
  return { sheet, table, range };
}

/** The input columns of the sheet as blocks of cells, one below another. */
function columnBlocks(
  plan: TemplatePlan,
  { outlets }: Visits,
  contentOf: (cell: TakenCell) => CellContent,
): readonly { readonly range: string; readonly cells: readonly (readonly [CellContent])[] }[] {
  const { table, range } = tableOf(plan);
  const first = range.firstRow + 1;
  return table.columns.flatMap(({ name, formula }, index) => {
    if (formula !== null) return [];
    const letters = columnLetters(range.firstColumn + index);
    const cells = outlets.map(({ cells: taken }): readonly [CellContent] => {
      const cell = taken[name];
      return [cell === undefined ? null : contentOf(cell)];
    });
    return [{ range: `${letters}${first}:${letters}${first + outlets.length - 1}`, cells }];
  });
}

/** The figures of visits in the cells of a new sheet, which follow nothing. */
export function visitValues(plan: TemplatePlan, visits: Visits): Readonly<Record<string, CellContent>> {
  const blocks = columnBlocks(plan, visits, ({ value }) => value);
  const cells = blocks.flatMap(({ range, cells: rows }) => {
    const { firstRow = 1, firstColumn = 1 } = parseRange(range) ?? {};
    return rows.flatMap(([content], row) =>
      content === null ? [] : [[formatAddress(firstRow + row, firstColumn), content] as const],
    );
  });
  return Object.fromEntries(cells);
}

/** The name that the host gave to a sheet of the plan: the added ones are the last of the plan's, in its order. */
function addedName(added: readonly string[], plan: TemplatePlan, sheet: SheetPlan): string {
  const name = added[added.length - plan.sheets.length + plan.sheets.indexOf(sheet)];
  if (name === undefined) throw new HostError("The sheet of before and after was not added.");
  return name;
}

/**
 * Adds the sheet of before and after to a workbook, each of its inputs a formula that follows the readings as found and
 * as left of the workbook's own outlets.
 *
 * @returns The names of the added sheets, and what went there
 * @throws {HostError} As `visitsOf`, before anything is added
 */
export async function addBeforeAfter(
  host: WorkbookHost,
): Promise<{ readonly sheets: readonly string[]; readonly visits: Visits }> {
  const visits = visitsOf(await hostSource(host), "This workbook");
  const options = { points: visits.points };
  const plan = beforeAfter("", options);
  const { sheet, table, range } = tableOf(plan);
  const sheets = await host.addTemplate("before-after", options);
  const name = addedName(sheets, plan, sheet);
  const rows = range.lastRow - range.firstRow;
  const count = visits.outlets.length - rows;
  if (count > 0) {
    const grown = await host.addRows?.({ kind: "growTable", sheet: name, row: range.firstRow + 1, count });
    if (grown == null) {
      throw new HostError(`“${name}” has ${rows} rows and needs ${visits.outlets.length}. Add rows to ${table.name}.`);
    }
  }
  const edits = columnBlocks(plan, visits, ({ value, formula }) => formula ?? value).map(
    ({ range: at, cells }): BlockEdit => ({ address: { sheet: name, range: at }, cells }),
  );
  await host.write(edits);
  return { sheets, visits };
}
