import {
  cellsIn,
  formatAddress,
  formulaCellsOf,
  type ResultEdit,
  readSheet,
  type Sheet,
  valueAt,
  type Workbook,
} from "../../../xlsx/index.js";
import type { CheckedFormula, CheckedSheet, CheckedValue, CheckedWorkbook } from "./checked-workbook.js";

/** What calculating the file anew gave; leave it empty to check what the file stores. */
export interface FreshResults {
  readonly edits: readonly ResultEdit[];
  readonly errors: readonly {
    readonly sheet: string;
    readonly address: string;
    readonly error: string;
    readonly message: string;
  }[];
}

/** Results by sheet and address. */
type ResultMap = ReadonlyMap<string, ReadonlyMap<string, CheckedValue>>;

function resultMap({ edits, errors }: FreshResults): ResultMap {
  const map = new Map<string, Map<string, CheckedValue>>();
  const put = (sheet: string, address: string, value: CheckedValue) => {
    const results = map.get(sheet) ?? new Map<string, CheckedValue>();
    map.set(sheet, results.set(address, value));
  };
  for (const { sheet, address, value } of edits) {
    put(sheet, address, typeof value === "object" && value !== null ? { error: value.error, message: "" } : value);
  }
  for (const { sheet, address, error, message } of errors) put(sheet, address, { error, message });
  return map;
}

/** A call that the spreadsheet program could not read shows this, whatever we make of it. */
const UNREAD = "#NAME?";

function checkedSheet(sheet: Sheet, results: ReadonlyMap<string, CheckedValue>): CheckedSheet {
  const { cells } = sheet;
  const settled = (row: number, column: number, stored: ReturnType<typeof valueAt>): CheckedValue => {
    const isError = typeof stored === "object" && stored !== null;
    if (isError && stored.error === UNREAD) return { error: stored.error, message: "" };
    const fresh = results.size === 0 ? undefined : results.get(formatAddress(row, column));
    if (fresh !== undefined) return fresh;
    return isError ? { error: stored.error, message: "" } : stored;
  };
  const formulas: CheckedFormula[] = [];
  for (const { row, column, formula } of formulaCellsOf(sheet)) {
    if (formula.kind === "dataTable") continue;
    formulas.push({ row, column, text: formula.text, fills: formula.range });
  }
  return {
    name: sheet.name,
    lastRow: cells.rowNumbers[cells.rowCount - 1] ?? 1,
    lastColumn: cells.columns.reduce((last, column) => Math.max(last, column), 1),
    valueAt: (row, column) => settled(row, column, valueAt(sheet, row, column)),
    *cellsIn(range) {
      for (const { row, column, value } of cellsIn(sheet, range)) {
        const shown = settled(row, column, value);
        if (shown !== null) yield { row, column, value: shown };
      }
    },
    formulas,
  };
}

/** Shows a workbook file to the checks. */
export function checkedFile(workbook: Workbook, fresh: FreshResults = { edits: [], errors: [] }): CheckedWorkbook {
  const results = resultMap(fresh);
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  return {
    sheets: sheets.map((sheet) => checkedSheet(sheet, results.get(sheet.name) ?? new Map())),
    names: workbook.names,
    tables: sheets.flatMap((sheet) => sheet.tables.map((table) => ({ sheet: sheet.name, table }))),
    spelling: "stored",
  };
}
