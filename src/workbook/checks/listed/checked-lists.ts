import { jobOf } from "../../job/index.js";
import { type ListedOutlet, type ListRow, type OutletList, readListedOutlet, rowsOf } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";

/** A list of outlets with its rows as they were read. */
export interface CheckedList {
  /** The place of its sheet in the list of sheets. */
  readonly sheet: number;
  readonly list: OutletList;
  readonly rows: readonly ListRow[];
  readonly outlets: readonly ListedOutlet[];
}

/** Reads every list of outlets of a workbook. */
export function checkedLists({ sheets, lists, workbook }: WorkbookIndex): readonly CheckedList[] {
  const statedUnits = jobOf(workbook)?.statedUnits ?? null;
  const numbers = new Map(sheets.map(({ name }, number) => [name, number]));
  return lists.value.map((list): CheckedList => {
    const rows = [...rowsOf(list)];
    const outlets = rows.filter(({ is }) => is === "outlet").map((row) => readListedOutlet(list, row, statedUnits));
    return { sheet: numbers.get(list.sheet) ?? 0, list, rows, outlets };
  });
}
