import type { Model } from "@odoo/o-spreadsheet";
import { createModel, editCells, engineSpelling, typedContent } from "../../../src/engine/index.js";
import { type CellRange, formatAddress, formatRange, isInRange, parseRange } from "../../../src/xlsx/address.js";
import type { GivenWorkbook } from "../contract.js";

/** What Excel rejects a batch with. */
export class FakeExcelError extends Error {
  constructor(readonly code: string) {
    super(`Excel says ${code}`);
  }
}

export interface FakeSheet {
  readonly id: string;
  readonly name: string;
  protection: Readonly<Record<string, boolean | string>> | null;
  hasPassword: boolean;
  readonly unlocked: Set<string>;
  /** Formulas that Excel could not read when they came, as shown, by address. */
  readonly stuck: Map<string, string>;
}

/** Excel's numbers for what can happen in a workbook. */
export const EXCEL_EVENT = { changed: 10, activated: 11, selected: 14, calculated: 16 } as const;

/** Something that happened, as Excel tells it. */
export interface FakeEvent {
  readonly type: number;
  readonly args: Readonly<Record<string, unknown>>;
}

/** A block as Excel reports it. */
export interface ShownBlock {
  readonly address: string;
  readonly values: unknown[][];
  readonly valueTypes: string[][];
  readonly formulas: unknown[][];
  /** Undefined where some cells are locked and some are not. */
  readonly locked: boolean | undefined;
}

const ROWS = 250;
const COLUMNS = 26;

const EXCEL_TYPES: Readonly<Record<string, string>> = {
  empty: "Empty",
  error: "Error",
  number: "Double",
  boolean: "Boolean",
  text: "String",
};

function quoted(name: string): string {
  return /^\w+$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** What a typed text becomes, as Excel has it: a number or a formula unless an apostrophe stands before it. */
function entered(cell: unknown): string {
  const text = typeof cell === "boolean" ? String(cell).toUpperCase() : String(cell);
  return text.startsWith("=") ? engineSpelling(text) : text;
}

/** A workbook that stands in for Excel's; the spreadsheet engine calculates. */
export class FakeWorkbook {
  readonly sheets: readonly FakeSheet[];
  readonly names: Map<string, string>;
  selected: string | null = null;
  /** Whether a person has a cell open for editing: Excel then answers nothing. */
  isCellEdited = false;
  /** Whether the workbook was opened for reading only. */
  isReadOnly = false;
  /** What add-ins keep in the document, by key. */
  readonly settings = new Map<string, unknown>();
  /** Whether the add-in loads with the document: "Inactive", or in the "Background". */
  startState = "Inactive";
  /** Whether days are counted from 1904. */
  is1904 = false;
  decimalSeparator = ".";
  /** Is told of whatever happens. */
  onEvent: (event: FakeEvent) => void = () => undefined;
  /** Rows that stay in view at the top of every sheet. */
  frozenRows = 0;
  /** What was set for printing, in order: the property or method, and what it was given. */
  readonly printSetUp: (readonly [string, unknown])[] = [];
  /** Workbooks that were opened beside this one, in base64. */
  readonly opened: string[] = [];
  private readonly model: Model;

  constructor({ sheets, names }: GivenWorkbook) {
    this.names = new Map(Object.entries(names));
    this.sheets = sheets.map(({ name }, index) => ({
      id: `{sheet-${index}}`,
      name,
      protection: null,
      hasPassword: false,
      unlocked: new Set<string>(),
      stuck: new Map<string, string>(),
    }));
    this.model = createModel({
      sheets: sheets.map(({ name, cells, hiddenRows = [], mergedRanges = [] }, index) => ({
        id: `{sheet-${index}}`,
        name,
        colNumber: COLUMNS,
        rowNumber: ROWS,
        merges: [...mergedRanges],
        rows: Object.fromEntries(hiddenRows.map((row) => [row - 1, { isHidden: true }])),
        cells: Object.fromEntries(Object.entries(cells).map(([address, cell]) => [address, typedContent(cell)])),
      })),
    });
  }

  /** Finds a sheet by its name or id. */
  sheet(name: string): FakeSheet {
    const found = this.sheets.find((sheet) => sheet.name === name || sheet.id === name);
    if (found === undefined) throw new FakeExcelError("ItemNotFound");
    return found;
  }

  /** The sheet in front. */
  get activeSheet(): FakeSheet {
    const [name] = this.selected?.split("!") ?? [];
    const front = this.sheets.find((sheet) => quoted(sheet.name) === name) ?? this.sheets[0];
    if (front === undefined) throw new FakeExcelError("ItemNotFound");
    return front;
  }

  /** Refuses what a workbook that was opened for reading only refuses. */
  requireWritable(): void {
    if (this.isReadOnly) throw new FakeExcelError("AccessDenied");
  }

  /** Enters what was typed, as a person would; a locked cell of a protected sheet refuses it. */
  enter(sheet: FakeSheet, range: CellRange, rows: readonly (readonly unknown[])[]): void {
    this.requireWritable();
    const edits = rows.flatMap((cells, rowIndex) =>
      cells.map((cell, columnIndex) => {
        const row = range.firstRow + rowIndex;
        const column = range.firstColumn + columnIndex;
        const address = formatAddress(row, column);
        if (sheet.protection !== null && !sheet.unlocked.has(address)) throw new FakeExcelError("AccessDenied");
        sheet.stuck.delete(address);
        return { sheetId: sheet.id, col: column - 1, row: row - 1, content: entered(cell) };
      }),
    );
    editCells(this.model, edits);
    const worksheetId = sheet.id;
    const address = formatRange(range);
    this.onEvent({
      type: EXCEL_EVENT.changed,
      args: { worksheetId, address, changeType: "RangeEdited", source: "Local", triggerSource: "Unknown" },
    });
    this.onEvent({ type: EXCEL_EVENT.calculated, args: { worksheetId, address } });
  }

  /** Inserts or deletes whole rows; formulas follow as the spreadsheet engine has them. A protected sheet refuses it. */
  changeRows(sheet: FakeSheet, kind: "insert" | "delete", first: number, count: number): void {
    this.requireWritable();
    if (sheet.protection !== null) throw new FakeExcelError("AccessDenied");
    const place = { sheetId: sheet.id, sheetName: sheet.name, dimension: "ROW" as const };
    if (kind === "insert") {
      this.model.dispatch("ADD_COLUMNS_ROWS", { ...place, base: first - 1, quantity: count, position: "before" });
    } else {
      const elements = Array.from({ length: count }, (_, index) => first - 1 + index);
      this.model.dispatch("REMOVE_COLUMNS_ROWS", { ...place, elements });
    }
  }

  unprotect(sheet: FakeSheet): void {
    if (sheet.hasPassword) throw new FakeExcelError("AccessDenied");
    sheet.protection = null;
  }

  select(sheet: FakeSheet, range: CellRange): void {
    const before = this.activeSheet;
    this.selected = this.address(sheet, range);
    if (before !== sheet) this.onEvent({ type: EXCEL_EVENT.activated, args: { worksheetId: sheet.id } });
    this.onEvent({ type: EXCEL_EVENT.selected, args: { worksheetId: sheet.id, address: formatRange(range) } });
  }

  address(sheet: FakeSheet, range: CellRange): string {
    return `${quoted(sheet.name)}!${formatRange(range)}`;
  }

  /** The part of a sheet that holds something, null where it is empty. */
  usedRange(sheet: FakeSheet): CellRange | null {
    const places = Array.from({ length: ROWS * COLUMNS }, (_, index) => ({
      row: Math.floor(index / COLUMNS) + 1,
      column: (index % COLUMNS) + 1,
    })).filter(({ row, column }) => this.cell(sheet, row, column).type !== "Empty");
    if (places.length === 0) return null;
    return {
      firstRow: Math.min(...places.map(({ row }) => row)),
      firstColumn: Math.min(...places.map(({ column }) => column)),
      lastRow: Math.max(...places.map(({ row }) => row)),
      lastColumn: Math.max(...places.map(({ column }) => column)),
    };
  }

  block(sheet: FakeSheet, range: CellRange): ShownBlock {
    const rows = Array.from({ length: range.lastRow - range.firstRow + 1 }, (_, row) => range.firstRow + row);
    const columns = Array.from({ length: range.lastColumn - range.firstColumn + 1 }, (_, at) => range.firstColumn + at);
    const cells = rows.map((row) => columns.map((column) => this.cell(sheet, row, column)));
    const addresses = rows.flatMap((row) => columns.map((column) => formatAddress(row, column)));
    const unlocked = addresses.filter((address) => sheet.unlocked.has(address)).length;
    return {
      address: this.address(sheet, range),
      values: cells.map((row) => row.map(({ value }) => value)),
      valueTypes: cells.map((row) => row.map(({ type }) => type)),
      formulas: cells.map((row) => row.map(({ formula }) => formula)),
      locked: unlocked === 0 ? true : unlocked === addresses.length ? false : undefined,
    };
  }

  /** The address of the merged blocks within a block, one behind the other; null for none. */
  mergedAreas(sheet: FakeSheet, range: CellRange): string | null {
    const merges = this.model.getters
      .getMerges(sheet.id)
      .map(({ top, left, bottom, right }) => ({
        firstRow: top + 1,
        firstColumn: left + 1,
        lastRow: bottom + 1,
        lastColumn: right + 1,
      }))
      .filter(({ firstRow, firstColumn }) => isInRange(range, firstRow, firstColumn));
    return merges.length === 0 ? null : merges.map((merged) => this.address(sheet, merged)).join(",");
  }

  /** The address of the rows of a block that are in view, in runs; null where none is. */
  areasInView(sheet: FakeSheet, { firstRow, lastRow, ...columns }: CellRange): string | null {
    const runs: CellRange[] = [];
    for (let row = firstRow; row <= lastRow; row += 1) {
      if (this.model.getters.isRowHidden(sheet.id, row - 1)) continue;
      const last = runs.at(-1);
      if (last?.lastRow === row - 1) runs[runs.length - 1] = { ...last, lastRow: row };
      else runs.push({ ...columns, firstRow: row, lastRow: row });
    }
    return runs.length === 0 ? null : runs.map((run) => this.address(sheet, run)).join(",");
  }

  private cell(sheet: FakeSheet, row: number, column: number): { value: unknown; type: string; formula: unknown } {
    const stuck = sheet.stuck.get(formatAddress(row, column));
    if (stuck !== undefined) return { value: "#NAME?", type: "Error", formula: stuck };
    const position = { sheetId: sheet.id, col: column - 1, row: row - 1 };
    const { value, type } = this.model.getters.getEvaluatedCell(position);
    const cell = this.model.getters.getCell(position);
    const shown = value ?? "";
    if (cell?.isFormula !== true) return { value: shown, type: EXCEL_TYPES[type] ?? "String", formula: shown };
    const formula = cell.compiledFormula.toFormulaString(this.model.getters as never);
    return { value: shown, type: shown === "" ? "String" : (EXCEL_TYPES[type] ?? "String"), formula };
  }
}

/** Reads a range that a request names. */
export function givenRange(text: string): CellRange {
  const range = parseRange(text);
  if (range === undefined) throw new FakeExcelError("InvalidArgument");
  return range;
}
