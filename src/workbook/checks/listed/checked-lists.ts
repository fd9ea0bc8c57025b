import { jobOf } from "../../job/index.js";
import {
  findLists,
  type ListedOutlet,
  type ListRow,
  type OutletList,
  readListedOutlet,
  rowsOf,
} from "../../lists/index.js";
import type { SheetSource } from "../../source/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";

/** A list of outlets with its rows as they were read. */
export interface CheckedList {
  /** The place of its sheet in the list of sheets. */
  readonly sheet: number;
  readonly list: OutletList;
  readonly rows: readonly ListRow[];
  readonly outlets: readonly ListedOutlet[];
}

/** The sheets of a checked workbook as the readers of lists ask for them. */
function sourcesOf(index: WorkbookIndex): readonly SheetSource[] {
  return index.sheets.map((sheet, number): SheetSource => {
    const own = index.workbook.tables.filter((one) => one.sheet.toLowerCase() === sheet.name.toLowerCase());
    return {
      name: sheet.name,
      lastRow: sheet.lastRow,
      lastColumn: sheet.lastColumn,
      *rowsFrom(row) {
        for (let next = row; next <= sheet.lastRow; next += 1) yield next;
      },
      valueAt: (row, column) => sheet.valueAt(row, column),
      formulaAt: (row, column) => index.formulaAt(number, row, column)?.text,
      tables: own.map(({ table }) => table),
    };
  });
}

/** Reads every list of outlets of a workbook. */
export function checkedLists(index: WorkbookIndex): readonly CheckedList[] {
  const sheets = sourcesOf(index);
  const { names } = index.workbook;
  const statedUnits = jobOf({ sheets, names, usesDate1904: false })?.statedUnits ?? null;
  const numbers = new Map(sheets.map(({ name }, number) => [name, number]));
  return findLists(sheets).value.map((list): CheckedList => {
    const rows = [...rowsOf(list)];
    const outlets = rows.filter(({ is }) => is === "outlet").map((row) => readListedOutlet(list, row, statedUnits));
    return { sheet: numbers.get(list.sheet) ?? 0, list, rows, outlets };
  });
}
