import {
  type CellFormula,
  type FormulaCell,
  formatAddress,
  formatRange,
  formulasOf,
  type PlacedTable,
  type ResultEdit,
  readSheet,
  rowStateAt,
  type Sheet,
  valueAt,
  type Workbook,
  withoutTableReferences,
} from "../xlsx/index.js";
import { calculateWorkbook } from "./calculator/calculate-workbook.js";
import type {
  CalculatedCell,
  CellPlace,
  FormulaSource,
  KeptCell,
  SourceFormula,
  SourceSheet,
} from "./calculator/source.js";

/** A formula of a file that was not calculated, and why. */
export interface KeptFormula {
  readonly sheet: string;
  readonly address: string;
  readonly reason: string;
  /** Whether its stored value is known to be old and is taken out; otherwise it stays. */
  readonly isOutdated: boolean;
}

/** What calculating a workbook file gave: how to bring its stored results up to date, and what was left. */
export interface XlsxCalculation {
  /** How many formulas were calculated. */
  readonly calculatedCount: number;
  /** Results that differ from what the file stores, and stored values that are known to be old and go. */
  readonly edits: readonly ResultEdit[];
  readonly kept: readonly KeptFormula[];
  /** Cells whose result is an error, with the message that Excel would show. */
  readonly errors: readonly {
    readonly sheet: string;
    readonly address: string;
    readonly error: string;
    readonly message: string;
  }[];
}

/**
 * Calculates the VANE formulas of a workbook file, in either spelling, and what depends on them.
 *
 * @param workbook - As opened
 * @param changed - Cells that were changed since the file's results were stored
 * @param report - Told now and then how many of how many formulas are settled
 */
export function calculateXlsx(
  workbook: Workbook,
  changed: readonly CellPlace[] = [],
  report: (done: number, total: number) => void = () => undefined,
): XlsxCalculation {
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  const { calculatedCount, calculated, kept } = calculateWorkbook(sourceOf(workbook, sheets), changed, report);
  const byName = new Map(sheets.map((sheet) => [sheet.name, sheet]));
  return {
    calculatedCount,
    edits: [...resultEdits(byName, calculated), ...kept.flatMap((cell) => outdatedEdits(byName.get(cell.sheet), cell))],
    kept: kept.map(({ sheet, row, column, reason, isOutdated }) => ({
      sheet,
      address: formatAddress(row, column),
      reason,
      isOutdated,
    })),
    errors: calculated.flatMap(({ sheet, row, column, value }) =>
      typeof value === "object" ? [{ sheet, address: formatAddress(row, column), ...value }] : [],
    ),
  };
}

function resultEdits(sheets: ReadonlyMap<string, Sheet>, calculated: readonly CalculatedCell[]): readonly ResultEdit[] {
  const edits: ResultEdit[] = [];
  for (const { sheet: name, row, column, value } of calculated) {
    const sheet = sheets.get(name);
    if (sheet === undefined || isStored(sheet, row, column, value)) continue;
    const shown = typeof value === "object" ? { error: value.error } : value;
    edits.push({ kind: "result", sheet: name, address: formatAddress(row, column), value: shown });
  }
  return edits;
}

/** Takes the stored value out of each cell that an outdated formula fills. */
function outdatedEdits(sheet: Sheet | undefined, { row, column, isOutdated, fills }: KeptCell): readonly ResultEdit[] {
  if (sheet === undefined || !isOutdated) return [];
  const block = fills ?? { firstRow: row, firstColumn: column, lastRow: row, lastColumn: column };
  const edits: ResultEdit[] = [];
  for (let down = block.firstRow; down <= block.lastRow; down += 1) {
    for (let across = block.firstColumn; across <= block.lastColumn; across += 1) {
      if (valueAt(sheet, down, across) === null) continue;
      edits.push({
        kind: "result",
        sheet: sheet.name,
        address: formatAddress(down, across),
        value: null,
        isOutdated: true,
      });
    }
  }
  return edits;
}

function isStored(sheet: Sheet, row: number, column: number, value: CalculatedCell["value"]): boolean {
  const stored = valueAt(sheet, row, column);
  if (stored === null) return false;
  if (typeof stored === "object" && typeof value === "object") return stored.error === value.error;
  return stored === value;
}

function sourceOf(workbook: Workbook, sheets: readonly Sheet[]): FormulaSource {
  const tables = sheets.flatMap((sheet) => sheet.tables.map((table) => ({ sheet: sheet.name, table })));
  const withoutTables = (text: string, cell: CellPlace) => withoutTableReferences(text, cell, tables);
  const nowhere = { sheet: "", row: 0, column: 0 };
  const namesOn = (sheet: string | undefined) =>
    new Map(
      workbook.names
        .filter((name) => name.sheet === sheet)
        .map(({ name, refersTo }) => [name, withoutTables(refersTo, nowhere) ?? refersTo]),
    );
  return {
    names: namesOn(undefined),
    withoutTables,
    sheets: sheets.map((sheet) => sourceSheet(sheet, namesOn(sheet.name), tables)),
  };
}

function sourceSheet(sheet: Sheet, names: ReadonlyMap<string, string>, tables: readonly PlacedTable[]): SourceSheet {
  const { cells } = sheet;
  return {
    name: sheet.name,
    names,
    lastRow: cells.rowNumbers[cells.rowCount - 1] ?? 1,
    lastColumn: cells.columns.reduce((last, column) => Math.max(last, column), 1),
    valueAt: (row, column) => valueAt(sheet, row, column),
    rowStateAt: (row) => rowStateAt(sheet, row),
    formulas: sourceFormulas(sheet, tables),
  };
}

/** A what-if table as a formula that reads its headings and the formula in their corner or row, which it tries values in. */
function whatIfTable({ row, column }: FormulaCell, { range }: CellFormula): SourceFormula {
  const { firstRow, firstColumn, lastRow, lastColumn } = range ?? {
    firstRow: row,
    firstColumn: column,
    lastRow: row,
    lastColumn: column,
  };
  const [above, left] = [Math.max(1, firstRow - 1), Math.max(1, firstColumn - 1)];
  const read = [
    { firstRow: above, firstColumn: left, lastRow: above, lastColumn },
    { firstRow: above, firstColumn: left, lastRow, lastColumn: left },
  ];
  return { row, column, text: `TABLE(${read.map(formatRange).join(",")})`, fills: range, isDynamic: false };
}

/** Made one by one as they are read, so that no list of them is kept. */
function* sourceFormulas(sheet: Sheet, tables: readonly PlacedTable[]): Generator<SourceFormula> {
  for (const { row, column, formula } of formulasOf(sheet)) {
    const cell = { sheet: sheet.name, row, column };
    yield formula.kind === "dataTable" ? whatIfTable(cell, formula) : sourceFormula(cell, formula, tables);
  }
}

function sourceFormula(
  cell: FormulaCell,
  { text, range, isDynamic }: CellFormula,
  tables: readonly PlacedTable[],
): SourceFormula {
  const { row, column } = cell;
  return { row, column, text: withoutTableReferences(text, cell, tables) ?? text, fills: range, isDynamic };
}
