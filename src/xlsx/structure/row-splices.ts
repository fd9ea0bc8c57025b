import { formatAddress, parseAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { plainFormulaXml } from "../patch/rewrite-cell.js";
import { type CellTable, findCell, findRow, type StoredFormula } from "../read/cell-table.js";
import { storedValue } from "../read/cells.js";
import type { Sheet } from "../sheet.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag, tagEnd } from "../xml/tag.js";
import { encodeXstring, escapeText } from "../xml/text.js";
import { utf8Bytes, utf8Text } from "../xml/utf8.js";
import type { FormulaAfter } from "./formulas-after.js";
import { type NewRows, newRowTag } from "./new-rows.js";
import { movedRow, type RowChange } from "./row-change.js";
import { refused } from "./structure-context.js";

const ADDRESS = /\sr\s*=\s*(?:"[^"]*"|'[^']*')/;

/** The tag that starts at a place of a part. */
export function tagAt(bytes: Uint8Array, start: number): string {
  return utf8Text(bytes.subarray(start, tagEnd(bytes, start)));
}

/** Puts the addresses of a row's cells in another row. */
function addressSplices({ cells }: Sheet, bytes: Uint8Array, rowIndex: number, row: number): readonly Splice[] {
  const splices: Splice[] = [];
  const end = cells.rowFirstCells[rowIndex + 1] as number;
  for (let index = cells.rowFirstCells[rowIndex] as number; index < end; index += 1) {
    const start = cells.starts[index] as number;
    const tag = tagAt(bytes, start);
    const found = ADDRESS.exec(tag);
    // A cell without an address stands where it comes.
    if (found === null) continue;
    const text = ` r="${formatAddress(row, cells.columns[index] as number)}"`;
    const at = start + byteLength(tag.slice(0, found.index));
    splices.push({ start: at, end: at + byteLength(found[0]), text });
  }
  return splices;
}

function byteLength(text: string): number {
  return utf8Bytes(text).length;
}

function rowTagSplice({ cells }: Sheet, bytes: Uint8Array, rowIndex: number, row: number): Splice {
  const start = cells.rowStarts[rowIndex] as number;
  const end = cells.rowOpenEnds[rowIndex] as number;
  const tag = utf8Text(bytes.subarray(start, end));
  return { start, end, text: changeTag(tag, { r: String(row) }, tag.endsWith("/>") ? "/>" : ">") };
}

function formulaSplice(
  sheet: Sheet,
  bytes: Uint8Array,
  formula: StoredFormula,
  after: FormulaAfter,
  change: RowChange,
): readonly Splice[] {
  const { start, end } = formula;
  if (after.isRespelled) return [{ start, end, text: plainFormulaXml(after.text, sheet.layout.prefix) }];
  const tag = tagAt(bytes, start);
  const isEmpty = tag.endsWith("/>");
  const inputs = formula.kind === "dataTable" ? inputCells(sheet, tag, formula, change) : {};
  const attributes = { ...after.attributes, ...inputs };
  const opened = changeTag(tag, attributes, isEmpty ? "/>" : ">");
  const openEnd = start + byteLength(tag);
  const splices: Splice[] = opened === tag ? [] : [{ start, end: openEnd, text: opened }];
  if (after.hasNewText && !isEmpty) {
    const closeStart = bytes.lastIndexOf(0x3c, end - 1);
    splices.push({ start: openEnd, end: closeStart, text: escapeText(encodeXstring(after.text)) });
  }
  return splices;
}

/** The cells into which a what-if table puts its values. */
function inputCells(sheet: Sheet, tag: string, { row, column }: StoredFormula, change: RowChange) {
  const inputs: Record<string, string> = {};
  for (const name of ["r1", "r2"]) {
    const address = new RegExp(`\\s${name}\\s*=\\s*["']([^"']*)["']`).exec(tag)?.[1];
    const place = address === undefined ? undefined : parseAddress(address);
    if (place === undefined) continue;
    const moved = movedRow(change, place.row);
    if (moved === undefined) {
      const where = `sheet “${sheet.name}”, ${formatAddress(row, column)}`;
      throw refused(
        sheet.workbook,
        where,
        `is a what-if table over ${address}, which would go`,
        "Clear the table first.",
      );
    }
    inputs[name] = formatAddress(moved, place.column);
  }
  return inputs;
}

/** Formulas of a sheet that stay in their rows, changed in place. */
export function formulaSplices(
  sheet: Sheet,
  bytes: Uint8Array,
  after: readonly (FormulaAfter | undefined)[],
  change: RowChange,
): readonly Splice[] {
  return sheet.cells.formulas.flatMap((formula, index) => {
    const changed = after[index];
    return changed === undefined ? [] : formulaSplice(sheet, bytes, formula, changed, change);
  });
}

/** Rows that go, move, or come new. */
export function rowSplices(sheet: Sheet, bytes: Uint8Array, change: RowChange, made: NewRows): readonly Splice[] {
  const { cells, layout } = sheet;
  const splices: Splice[] = [];
  for (let index = 0; index < cells.rowCount; index += 1) {
    const row = cells.rowNumbers[index] as number;
    const moved = movedRow(change, row);
    if (moved === row) continue;
    if (moved === undefined) {
      requireNothingLost(sheet, index, row, change);
      splices.push({ start: cells.rowStarts[index] as number, end: cells.rowEnds[index] as number, text: "" });
      continue;
    }
    splices.push(rowTagSplice(sheet, bytes, index, moved), ...addressSplices(sheet, bytes, index, moved));
  }
  if (change.inserted > 0) splices.push(...insertedRows(sheet, bytes, change, made));
  else if (change.added > 0) splices.push(...joinedRows(sheet, bytes, change, made));
  if (layout.sheetData.openEnd === layout.sheetData.end) return [];
  return splices;
}

/**
 * Rows that change places: each is moved as it is, with its height and its formulas.
 *
 * @param formulas - What changes in the formulas of the sheet; those of these rows are carried along
 */
export function orderedRows(
  sheet: Sheet,
  bytes: Uint8Array,
  change: RowChange,
  formulas: readonly Splice[],
): readonly Splice[] {
  const { cells } = sheet;
  const { order } = change;
  if (order === undefined) return formulas;
  const rows: { readonly row: number; readonly text: string }[] = [];
  const inOrder = formulas.toSorted((one, other) => one.start - other.start);
  let next = 0;
  let [start, end] = [-1, -1];
  for (let index = 0; index < cells.rowCount; index += 1) {
    const row = cells.rowNumbers[index] as number;
    if (row < order.first || row > order.last) continue;
    const [from, to] = [cells.rowStarts[index] as number, cells.rowEnds[index] as number];
    if (start < 0) start = from;
    end = to;
    const moved = movedRow(change, row) ?? row;
    const own: Splice[] = [];
    for (; next < inOrder.length && (inOrder[next] as Splice).start < to; next += 1) {
      if ((inOrder[next] as Splice).start >= from) own.push(inOrder[next] as Splice);
    }
    const splices = [rowTagSplice(sheet, bytes, index, moved), ...addressSplices(sheet, bytes, index, moved), ...own];
    const placed = splices.map((splice) => ({ ...splice, start: splice.start - from, end: splice.end - from }));
    rows.push({ row: moved, text: utf8Text(spliceBytes(bytes.subarray(from, to), placed)) });
  }
  if (rows.length === 0) return formulas;
  const text = rows
    .sort((one, other) => one.row - other.row)
    .map((one) => one.text)
    .join("");
  return [...formulas.filter((splice) => splice.end <= start || splice.start >= end), { start, end, text }];
}

/** A row that would be pushed off the sheet may hold no more than looks. */
function requireNothingLost(sheet: Sheet, index: number, row: number, { deleted, inserted }: RowChange): void {
  if (deleted > 0) return;
  const { cells } = sheet;
  const end = cells.rowFirstCells[index + 1] as number;
  for (let at = cells.rowFirstCells[index] as number; at < end; at += 1) {
    if (storedValue(sheet, at) === null && (cells.formulaIndexes[at] as number) < 0) continue;
    const where = `sheet “${sheet.name}”, ${formatAddress(row, cells.columns[at] as number)}`;
    const problem = `would be pushed off the sheet by ${inserted} more rows, which ends at row ${WORKBOOK_LIMITS.rows}`;
    throw refused(sheet.workbook, where, problem, "Clear the last rows of the sheet, or insert fewer rows.");
  }
}

function modelTag({ cells }: Sheet, bytes: Uint8Array, model: number | undefined): string | undefined {
  const index = model === undefined ? -1 : findRow(cells, model);
  return index < 0 ? undefined : utf8Text(bytes.subarray(cells.rowStarts[index], cells.rowOpenEnds[index]));
}

/** Where a row that is not there yet goes: before the row with an index, or behind the last. */
function placeBefore({ cells, layout }: Sheet, index: number): number {
  return index < cells.rowCount ? (cells.rowStarts[index] as number) : layout.sheetData.closeStart;
}

function newRow(
  { layout }: Sheet,
  tag: string | undefined,
  row: number,
  cells: ReturnType<NewRows["cellsOf"]>,
  made: NewRows,
): string {
  const inside = cells.map((cell) => made.cellXml(row, cell)).join("");
  return `${newRowTag(tag, row, layout.prefix)}${inside}</${layout.prefix}row>`;
}

function insertedRows(sheet: Sheet, bytes: Uint8Array, change: RowChange, made: NewRows): readonly Splice[] {
  const { cells } = sheet;
  const { at, inserted, model } = change;
  const tag = modelTag(sheet, bytes, model);
  let text = "";
  for (let row = at; row < at + inserted; row += 1) {
    const wanted = made.cellsOf(row);
    if (tag === undefined && wanted.length === 0) continue;
    text += newRow(sheet, tag, row, wanted, made);
  }
  if (text === "") return [];
  const next = findRow(cells, at);
  const start = placeBefore(sheet, next < 0 ? ~next : next);
  return [{ start, end: start, text }];
}

/** Rows that are there already, or empty, get the looks and formulas of the list where their cells are empty. */
function joinedRows(sheet: Sheet, bytes: Uint8Array, change: RowChange, made: NewRows): readonly Splice[] {
  const { cells } = sheet;
  const { at, added, list, model } = change;
  const splices: Splice[] = [];
  for (let row = at; row < at + added; row += 1) {
    const wanted = made
      .cellsOf(row)
      .filter(({ column }) => list === undefined || (column >= list.firstColumn && column <= list.lastColumn));
    const found = findRow(cells, row);
    if (found < 0) {
      const start = placeBefore(sheet, ~found);
      splices.push({ start, end: start, text: newRow(sheet, modelTag(sheet, bytes, model), row, wanted, made) });
      continue;
    }
    splices.push(...joinRow(sheet, bytes, found, row, wanted, made));
  }
  return splices;
}

function joinRow(
  sheet: Sheet,
  bytes: Uint8Array,
  rowIndex: number,
  row: number,
  wanted: ReturnType<NewRows["cellsOf"]>,
  made: NewRows,
): readonly Splice[] {
  const { cells, layout } = sheet;
  const [start, openEnd, end] = [cells.rowStarts, cells.rowOpenEnds, cells.rowEnds].map(
    (of) => of[rowIndex] as number,
  ) as [number, number, number];
  const tag = utf8Text(bytes.subarray(start, openEnd));
  if (openEnd === end) {
    const inside = wanted.map((cell) => made.cellXml(row, cell)).join("");
    return [{ start, end, text: `${changeTag(tag, { spans: undefined }, ">")}${inside}</${layout.prefix}row>` }];
  }
  const splices: Splice[] = [];
  const opened = changeTag(tag, { spans: undefined }, ">");
  if (opened !== tag) splices.push({ start, end: openEnd, text: opened });
  const afterLast = cells.rowFirstCells[rowIndex + 1] as number;
  for (const cell of wanted) {
    const index = findCell(cells, rowIndex, cell.column);
    if (index < 0) {
      const next = ~index;
      const at = next < afterLast ? (cells.starts[next] as number) : bytes.lastIndexOf(0x3c, end - 1);
      splices.push({ start: at, end: at, text: made.cellXml(row, cell) });
      continue;
    }
    splices.push(...joinCell(sheet, bytes, index, row, cell, made));
  }
  return splices;
}

function joinCell(
  sheet: Sheet,
  bytes: Uint8Array,
  index: number,
  row: number,
  cell: ReturnType<NewRows["cellsOf"]>[number],
  made: NewRows,
): readonly Splice[] {
  const { cells }: { readonly cells: CellTable } = sheet;
  const start = cells.starts[index] as number;
  const style = (cells.styles[index] as number) > 0 ? (cells.styles[index] as number) : cell.style;
  const isEmpty = storedValue(sheet, index) === null && (cells.formulaIndexes[index] as number) < 0;
  if (isEmpty) {
    if (cell.formula === undefined && style === cells.styles[index]) return [];
    return [{ start, end: cells.ends[index] as number, text: made.cellXml(row, { ...cell, style }) }];
  }
  if (style === cells.styles[index]) return [];
  const tag = tagAt(bytes, start);
  const text = changeTag(tag, { s: String(style) }, tag.endsWith("/>") ? "/>" : ">");
  return [{ start, end: start + byteLength(tag), text }];
}
