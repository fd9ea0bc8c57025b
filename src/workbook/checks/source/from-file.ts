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
import type { SheetSource, SourceValue } from "../../source/index.js";
import { fileSource } from "../../source/index.js";
import type { CheckedFormula, CheckedSheet, CheckedWorkbook } from "./checked-workbook.js";

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
type ResultMap = ReadonlyMap<string, ReadonlyMap<string, SourceValue>>;

function resultMap({ edits, errors }: FreshResults): ResultMap {
  const map = new Map<string, Map<string, SourceValue>>();
  const put = (sheet: string, address: string, value: SourceValue) => {
    const results = map.get(sheet) ?? new Map<string, SourceValue>();
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

function checkedSheet(sheet: Sheet, source: SheetSource, results: ReadonlyMap<string, SourceValue>): CheckedSheet {
  const settled = (row: number, column: number, stored: ReturnType<typeof valueAt>): SourceValue => {
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
    ...source,
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
  const source = fileSource(workbook);
  const sheets = source.sheets.map((shown) => ({ shown, sheet: readSheet(workbook, shown.name) }));
  return {
    ...source,
    sheets: sheets.map(({ shown, sheet }) => checkedSheet(sheet, shown, results.get(sheet.name) ?? new Map())),
    tables: sheets.flatMap(({ sheet }) => sheet.tables.map((table) => ({ sheet: sheet.name, table }))),
    spelling: "stored",
  };
}
