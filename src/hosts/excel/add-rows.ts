import { HostError, type RowEdit, type TableInfo } from "../../workbook/index.js";
import { type CellRange, columnLetters, parseRange } from "../../xlsx/address.js";
import { moveFormula } from "../../xlsx/formula/move-formula.js";
import { afterCellEdit, isRefusedForEdit } from "./after-cell-edit.js";
import { shownFormula, typedCell } from "./cell-contents.js";
import { listTables } from "./list-sheets.js";
import { sameOptions } from "./repair-formulas.js";
import { asHostError, runExcel } from "./run-excel.js";

const FAILURE = "No rows were added.";

/**
 * How rows come in. Excel lets a block take in a row only where it comes between two of its rows: so rows come before the last
 * of the list, or after its first, and what was typed there changes places.
 */
export interface RowPlan {
  readonly sheet: string;
  readonly firstColumn: number;
  readonly lastColumn: number;
  /** Where whole rows are inserted, and how many. */
  readonly at: number;
  readonly count: number;
  /** The row whose formulas the others get, after that. */
  readonly model: number;
  /** The first row that is written, and for each the row, after that, whose typed cells it gets; null for none. */
  readonly first: number;
  readonly typedFrom: readonly (number | null)[];
  /** Rows that go in the end, since what was typed there has moved; 0 for none. */
  readonly removed: number;
}

function bodyOf({ range, headerRows, totalsRows }: TableInfo): CellRange | undefined {
  const all = parseRange(range);
  return all && { ...all, firstRow: all.firstRow + headerRows, lastRow: all.lastRow - totalsRows };
}

const nothing = (count: number): null[] => Array.from({ length: count }, () => null);

/**
 * Says how rows come into a table.
 *
 * @throws {HostError} Where there is no table at that row, or it has a single row
 */
export function rowPlan(edit: RowEdit, tables: readonly TableInfo[]): RowPlan {
  const own = tables.filter(({ sheet }) => sheet === edit.sheet);
  const bodies = own.flatMap((table) => {
    const body = bodyOf(table);
    return body === undefined ? [] : [{ table, body }];
  });
  const { sheet, row } = edit;
  const place = `${FAILURE} Row ${row} of “${sheet}”`;
  const found =
    edit.kind === "extendTable"
      ? bodies.filter(({ body }) => body.lastRow < row).sort((a, b) => b.body.lastRow - a.body.lastRow)[0]
      : bodies.find(({ body, table }) => row >= body.firstRow - table.headerRows && row <= body.lastRow);
  if (found === undefined) throw new HostError(`${place} is in no table, nor below one. Choose a row of the list.`);
  const { body, table } = found;
  const { firstRow: first, lastRow: last, firstColumn, lastColumn } = body;
  if (last <= first) throw new HostError(`${place}: the table has a single row. Add a second one by hand first.`);
  const columns = { sheet, firstColumn, lastColumn };
  if (edit.kind === "growTable") {
    const { count } = edit;
    const typedFrom = [last + count, ...nothing(count)];
    return { ...columns, at: last, count, model: last + count, first: last, typedFrom, removed: 0 };
  }
  if (edit.kind === "extendTable") {
    if (table.totalsRows > 0) throw new HostError(`${place} is below the totals of the table. Add rows before them.`);
    const count = row - last;
    const typedFrom = Array.from({ length: count + 1 }, (_, index) => last + count + index);
    return { ...columns, at: last, count, model: last + count, first: last, typedFrom, removed: count };
  }
  const { count } = edit;
  if (row > first) {
    return { ...columns, at: row, count, model: row - 1, first: row, typedFrom: nothing(count), removed: 0 };
  }
  const typedFrom = [...nothing(count), first];
  return { ...columns, at: first + 1, count, model: first, first, typedFrom, removed: 0 };
}

/** Whole rows, as Excel names them. */
const wholeRows = (first: number, count: number): string => `${first}:${first + count - 1}`;

type Shown = Pick<Excel.Range, "formulas" | "values">;

/** What the rows hold in the end, by what Excel shows of the stretch that begins at a row. */
function contentsOf(plan: RowPlan, shown: Shown, from: number): (number | string | boolean)[][] {
  const { firstColumn, lastColumn, model, first, typedFrom } = plan;
  const cellAt = (row: number, column: number) => ({
    formula: shownFormula(shown.formulas[row - from]?.[column], shown.values[row - from]?.[column]),
    value: (shown.values[row - from]?.[column] ?? "") as number | string | boolean,
  });
  const moved = (formula: string, rows: number): string => `=${moveFormula(formula.slice(1), rows, 0)}`;
  return typedFrom.map((source, index) =>
    Array.from({ length: lastColumn - firstColumn + 1 }, (_, column) => {
      const row = first + index;
      const typed = source === null ? undefined : cellAt(source, column);
      if (typed !== undefined && typed.formula === null && typed.value !== "") return typedCell(typed.value);
      const formula = cellAt(model, column).formula;
      if (formula !== null) return moved(formula, row - model);
      return typed?.formula != null && source !== null ? moved(typed.formula, row - source) : "";
    }),
  );
}

/** Does something with the sheet open, and protects it as it was, also after a failure. */
async function withSheetOpen(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  act: () => Promise<void>,
): Promise<void> {
  sheet.protection.load("protected,options");
  await context.sync();
  if (!sheet.protection.protected) return act();
  const options = sameOptions(sheet.protection);
  try {
    sheet.protection.unprotect();
    await context.sync();
  } catch (thrown) {
    if (isRefusedForEdit(thrown)) throw thrown;
    throw new HostError(`${FAILURE} The sheet is protected with a password. Unprotect it on the Review tab first.`);
  }
  try {
    await act();
  } finally {
    await afterCellEdit(async () => {
      sheet.protection.protect(options);
      await context.sync();
    });
  }
}

/** Nothing that stands beside the list may go with rows that are removed. */
async function requireNothingBeside(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  plan: RowPlan,
): Promise<void> {
  if (plan.removed === 0) return;
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load("address,values");
  await context.sync();
  if (used.isNullObject) return;
  const range = parseRange(used.address.slice(used.address.lastIndexOf("!") + 1).replaceAll("$", ""));
  if (range === undefined) return;
  for (let row = plan.at + 1; row <= plan.at + plan.removed; row += 1) {
    const cells = used.values[row - range.firstRow] ?? [];
    const beside = cells.findIndex((value: unknown, index: number) => {
      const column = range.firstColumn + index;
      return value !== "" && (column < plan.firstColumn || column > plan.lastColumn);
    });
    if (beside < 0) continue;
    const cell = `${columnLetters(range.firstColumn + beside)}${row}`;
    throw new HostError(`${FAILURE} ${cell} of “${plan.sheet}” is beside the list. Move it elsewhere first.`);
  }
}

async function carryOut(context: Excel.RequestContext, sheet: Excel.Worksheet, plan: RowPlan): Promise<void> {
  const { at, count, first, typedFrom, model, removed, firstColumn, lastColumn } = plan;
  sheet.getRange(wholeRows(at, count)).insert("Down");
  await context.sync();
  // From here on the rows are there: an edit that begins meanwhile is waited for, and nothing is begun anew.
  const from = Math.min(first, model);
  const to = Math.max(model, ...typedFrom.map((row, index) => Math.max(row ?? 0, first + index)));
  const block = (one: number, other: number) =>
    sheet.getRange(`${columnLetters(firstColumn)}${one}:${columnLetters(lastColumn)}${other}`);
  try {
    await afterCellEdit(async () => {
      const shown = block(from, to);
      shown.load("formulas,values");
      await context.sync();
      block(first, first + typedFrom.length - 1).formulas = contentsOf(plan, shown, from);
      await context.sync();
    });
    if (removed === 0) return;
    await afterCellEdit(async () => {
      sheet.getRange(wholeRows(first + typedFrom.length, removed)).delete("Up");
      await context.sync();
    });
  } catch (thrown) {
    const { message } = asHostError("", thrown);
    throw new HostError(`Rows were inserted and not all of them filled: undo it in Excel (Ctrl+Z).${message}`);
  }
}

/**
 * Adds rows to a table, with its formulas, looks and rules; what refers to the list takes them in.
 *
 * @returns Sentences on what does not follow
 * @throws {HostError} Where there is no table at that row, or Excel refuses
 */
export async function addRows(edit: RowEdit): Promise<readonly string[]> {
  const plan = rowPlan(edit, await listTables());
  return runExcel(FAILURE, async (context) => {
    const sheet = context.workbook.worksheets.getItem(plan.sheet);
    await requireNothingBeside(context, sheet, plan);
    await withSheetOpen(context, sheet, () => carryOut(context, sheet, plan));
    return [];
  });
}
