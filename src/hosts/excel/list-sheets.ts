import type { SheetInfo, SheetLayout, TableInfo } from "../../workbook/index.js";
import { rangeOf, rangesIn, splitAddress } from "./addresses.js";
import { runExcel } from "./run-excel.js";

/** Lists the sheets with their used part, in two steps however many there are. */
export async function listSheets(): Promise<readonly SheetInfo[]> {
  return runExcel("The sheets could not be listed.", async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name,items/protection/protected");
    await context.sync();
    const used = worksheets.items.map((sheet) => {
      const range = sheet.getUsedRangeOrNullObject(true);
      range.load("address");
      return range;
    });
    await context.sync();
    return worksheets.items.map(({ name, protection }, index) => {
      const range = used[index] as Excel.Range;
      return {
        name,
        usedRange: range.isNullObject ? null : splitAddress(range.address).range,
        isProtected: protection.protected,
      };
    });
  });
}

/** Returns the defined names and what each refers to; a name that counts on one sheet alone begins with that sheet. */
export async function definedNames(): Promise<ReadonlyMap<string, string>> {
  return runExcel("The defined names could not be read.", async (context) => {
    const { names, worksheets } = context.workbook;
    names.load("items/name,items/formula");
    worksheets.load("items/name");
    await context.sync();
    for (const sheet of worksheets.items) sheet.names.load("items/name,items/formula");
    await context.sync();
    const refersTo = ({ formula }: Excel.NamedItem) => String(formula).replace(/^=/, "");
    return new Map([
      ...names.items.map((item) => [item.name, refersTo(item)] as const),
      ...worksheets.items.flatMap((sheet) =>
        sheet.names.items.map((item) => [`${sheet.name}!${item.name}`, refersTo(item)] as const),
      ),
    ]);
  });
}

/** Lists the tables with their columns, in two steps however many there are. */
export async function listTables(): Promise<readonly TableInfo[]> {
  return runExcel("The tables could not be listed.", async (context) => {
    const { tables } = context.workbook;
    tables.load("items/name,items/showHeaders,items/showTotals,items/columns/items/name");
    await context.sync();
    const ranges = tables.items.map((table) => {
      const range = table.getRange();
      range.load("address");
      return range;
    });
    await context.sync();
    return tables.items.map(({ name, showHeaders, showTotals, columns }, index) => ({
      name,
      ...splitAddress((ranges[index] as Excel.Range).address),
      headerRows: showHeaders ? 1 : 0,
      totalsRows: showTotals ? 1 : 0,
      columns: columns.items.map((column) => column.name),
    }));
  });
}

/** Rows of a block in which no cell is in view; whole columns in view, `A:C`, have no row that is not. */
function rowsOutOfView(used: string, inView: string): readonly number[] {
  const { firstRow, lastRow } = rangeOf({ sheet: "", range: used });
  const shown = rangesIn(inView).map((range) => {
    const [from = 1, to = from] = [...range.matchAll(/\d+/g)].map(Number);
    return { from, to: /\d/.test(range) ? to : Number.MAX_SAFE_INTEGER };
  });
  const rows = Array.from({ length: lastRow - firstRow + 1 }, (_, index) => firstRow + index);
  return rows.filter((row) => !shown.some(({ from, to }) => row >= from && row <= to));
}

/** The merged blocks and hidden rows of sheets, in two steps however many there are; an older Excel does not tell. */
export async function listLayouts(sheets: readonly SheetInfo[]): Promise<readonly SheetLayout[]> {
  if (!Office.context.requirements.isSetSupported("ExcelApi", "1.13")) return [];
  return runExcel("The sheets could not be looked through.", async (context) => {
    const asked = sheets.flatMap(({ name, usedRange }) => {
      if (usedRange === null) return [];
      const range = context.workbook.worksheets.getItem(name).getRange(usedRange);
      const merged = range.getMergedAreasOrNullObject();
      const inView = range.getSpecialCellsOrNullObject("Visible");
      merged.load("address");
      inView.load("address");
      return [{ name, usedRange, merged, inView }];
    });
    await context.sync();
    return asked.map(({ name, usedRange, merged, inView }) => ({
      sheet: name,
      mergedRanges: merged.isNullObject ? [] : rangesIn(merged.address),
      hiddenRows: rowsOutOfView(usedRange, inView.isNullObject ? "" : inView.address),
    }));
  });
}
