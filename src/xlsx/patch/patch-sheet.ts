import { formatRange, isInRange, parseAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { findCell, findRow } from "../read/cell-table.js";
import { cellAtPosition, cellsIn } from "../read/cells.js";
import type { Sheet } from "../sheet.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { utf8Text } from "../xml/utf8.js";
import { checkEdit, type FilledRange, filledRangesOf } from "./check-edit.js";
import type { CellEdit } from "./edits.js";
import { isAlready, makeCellXml, plainFormulaXml, type RespelledFormula, rewriteCell } from "./rewrite-cell.js";

interface PlacedEdit {
  readonly row: number;
  readonly column: number;
  /** Index of the cell in the table, negative when the file stores none. */
  readonly index: number;
  readonly edit: CellEdit;
}

/** A sheet's part after some edits. */
export interface PatchedSheet {
  readonly bytes: Uint8Array;
  readonly isChanged: boolean;
  /** Whether some cell gained, lost or changed a formula. */
  readonly changesFormulas: boolean;
}

/**
 * Applies edits to a sheet's part. Only the text between the offsets of the cells concerned changes, and the dimension
 * when a cell outside it is new.
 *
 * @param sheet - The sheet as it was read
 * @param bytes - Its part
 * @param edits - Of two edits of one cell the later counts
 * @param dynamicMetadata - What marks a cell as holding a dynamic array in this workbook
 * @throws {WorkbookFileError} When an edit would harm the workbook; then none is applied
 */
export function patchSheet(
  sheet: Sheet,
  bytes: Uint8Array,
  edits: readonly CellEdit[],
  dynamicMetadata: number,
): PatchedSheet {
  const placed = placeEdits(sheet, edits);
  const splices: Splice[] = [];
  const added: PlacedEdit[] = [];
  const context = { sheet, bytes, dynamicMetadata, respelled: respelledFormulas(sheet, placed) };
  const rewritten = new Set<number>();
  let changesFormulas = false;
  for (const placedEdit of placed) {
    const { row, index, edit } = placedEdit;
    if (index < 0) {
      const isBlank = edit.kind !== "formula" && edit.value === null;
      if (!isBlank) added.push(placedEdit);
      changesFormulas ||= edit.kind === "formula";
      continue;
    }
    for (const splice of rewriteCell(context, row, index, edit)) splices.push(splice);
    rewritten.add(index);
    changesFormulas ||= edit.kind === "formula" || (edit.kind === "value" && edit.formula === "replace");
  }
  splices.push(...addCells(sheet, bytes, added, dynamicMetadata), ...growDimension(sheet, bytes, added));
  for (const { cellIndex, splice } of context.respelled.values()) {
    if (!rewritten.has(cellIndex)) splices.push(splice);
  }
  return { bytes: spliceBytes(bytes, splices), isChanged: splices.length > 0, changesFormulas };
}

function placeEdits(sheet: Sheet, edits: readonly CellEdit[]): readonly PlacedEdit[] {
  const { cells } = sheet;
  const all: PlacedEdit[] = [];
  for (const edit of edits) {
    const position = parseAddress(edit.address);
    if (position === undefined) {
      checkEdit(sheet, edit, undefined, []);
      continue;
    }
    const { row, column } = position;
    const rowIndex = findRow(cells, row);
    all.push({ row, column, index: rowIndex < 0 ? -1 : findCell(cells, rowIndex, column), edit });
  }
  // Sorting leaves edits of one cell in their order: the last of them counts.
  all.sort((one, other) => one.row - other.row || one.column - other.column);
  const counting = all.filter(({ row, column }, index) => {
    const next = all[index + 1];
    return next === undefined || next.row !== row || next.column !== column;
  });
  const filled = filledRangesOf(sheet);
  const byPlace = new Map(filled.length === 0 ? [] : counting.map((one) => [placeOf(one.row, one.column), one]));
  const kept = filled.filter((one) => !isDissolved(sheet, one, byPlace));
  return counting.filter(({ row, index, edit }) => {
    const formulaIndex = index < 0 ? -1 : (cells.formulaIndexes[index] as number);
    checkEdit(sheet, edit, cells.formulas[formulaIndex]?.kind, kept);
    return index < 0 || !isAlready(sheet, row, index, edit);
  });
}

function placeOf(row: number, column: number): number {
  return row * WORKBOOK_LIMITS.columns + column - 1;
}

/** Whether the edits take the formula that fills a block away; then each cell of the block must get something new. */
function isDissolved(sheet: Sheet, filled: FilledRange, edits: ReadonlyMap<number, PlacedEdit>): boolean {
  const { edit } = edits.get(placeOf(filled.row, filled.column)) ?? {};
  if (edit === undefined || !takesBlockAway(edit)) return false;
  for (const { row, column, address, value } of cellsIn(sheet, filled.range)) {
    if (value === null || edits.has(placeOf(row, column))) continue;
    throw new WorkbookFileError(
      "refused-edit",
      `${sheet.workbook.fileName}, sheet “${sheet.name}”, cell ${address}`,
      `would keep a result of the formula that fills ${formatRange(filled.range)}, as if it had been typed`,
      "Give every cell of that block a formula or a value of its own.",
    );
  }
  return true;
}

/** Whether an edit leaves a formula, or a value, that fills its own cell alone. */
function takesBlockAway(edit: CellEdit): boolean {
  if (edit.kind === "formula") return edit.form === "plain" || (edit.form === "array" && edit.range === edit.address);
  return edit.kind === "value" && edit.formula === "replace";
}

/** When the cell that stores a shared formula loses it, every other cell that shares it gets its own text. */
function respelledFormulas(sheet: Sheet, placed: readonly PlacedEdit[]): ReadonlyMap<number, RespelledFormula> {
  const { cells, layout } = sheet;
  const lost = new Set<number>();
  for (const { index, edit } of placed) {
    if (edit.kind === "result") continue;
    const formulaIndex = index < 0 ? -1 : (cells.formulaIndexes[index] as number);
    if (formulaIndex >= 0 && cells.formulas[formulaIndex]?.masterIndex === formulaIndex) lost.add(formulaIndex);
  }
  const respelled = new Map<number, RespelledFormula>();
  if (lost.size === 0) return respelled;
  cells.formulas.forEach(({ masterIndex, row, column, start, end }, formulaIndex) => {
    if (!lost.has(masterIndex) || lost.has(formulaIndex)) return;
    const cell = cellAtPosition(sheet, row, column);
    if (cell?.formula === undefined) return;
    const cellIndex = findCell(cells, findRow(cells, row), column);
    const text = plainFormulaXml(cell.formula.text, layout.prefix);
    respelled.set(formulaIndex, { cellIndex, splice: { start, end, text } });
  });
  return respelled;
}

/** Puts new cells, and the rows that they need, where they belong. */
function addCells(
  sheet: Sheet,
  bytes: Uint8Array,
  added: readonly PlacedEdit[],
  dynamicMetadata: number,
): readonly Splice[] {
  const { cells, layout } = sheet;
  const { prefix, sheetData } = layout;
  const splices: Splice[] = [];
  const isSheetEmpty = sheetData.openEnd === sheetData.end;
  let newRows = "";
  for (const [row, edits] of groupByRow(added)) {
    const found = findRow(cells, row);
    const cellXml = ({ column, edit }: PlacedEdit): string => {
      const style = found >= 0 ? (cells.rowStyles[found] as number) : -1;
      return makeCellXml(sheet, row, column, edit, style, dynamicMetadata);
    };
    if (found >= 0) {
      splices.push(...addToRow(sheet, bytes, found, edits, cellXml));
      continue;
    }
    const text = `<${prefix}row r="${row}">${edits.map(cellXml).join("")}</${prefix}row>`;
    const next = ~found;
    if (isSheetEmpty) newRows += text;
    else {
      const start = next < cells.rowCount ? (cells.rowStarts[next] as number) : sheetData.closeStart;
      splices.push({ start, end: start, text });
    }
  }
  if (isSheetEmpty && newRows !== "") {
    const open = changeTag(utf8Text(bytes.subarray(sheetData.start, sheetData.end)), {}, ">");
    splices.push({ start: sheetData.start, end: sheetData.end, text: `${open}${newRows}</${prefix}sheetData>` });
  }
  return splices;
}

function groupByRow(edits: readonly PlacedEdit[]): ReadonlyMap<number, readonly PlacedEdit[]> {
  const rows = new Map<number, PlacedEdit[]>();
  for (const edit of edits) {
    const row = rows.get(edit.row) ?? [];
    row.push(edit);
    rows.set(edit.row, row);
  }
  return rows;
}

function addToRow(
  sheet: Sheet,
  bytes: Uint8Array,
  rowIndex: number,
  edits: readonly PlacedEdit[],
  cellXml: (edit: PlacedEdit) => string,
): readonly Splice[] {
  const { cells, layout } = sheet;
  const start = cells.rowStarts[rowIndex] as number;
  const openEnd = cells.rowOpenEnds[rowIndex] as number;
  const end = cells.rowEnds[rowIndex] as number;
  const tag = utf8Text(bytes.subarray(start, openEnd));
  // The spans of a row are a hint at the columns in use; a hint that is no longer true is taken out.
  const outgrown = edits.every(({ column }) => isInSpans(tag, column)) ? {} : { spans: undefined };
  if (openEnd === end) {
    const text = `${changeTag(tag, outgrown, ">")}${edits.map(cellXml).join("")}</${layout.prefix}row>`;
    return [{ start, end, text }];
  }
  const splices: Splice[] = [];
  if ("spans" in outgrown) splices.push({ start, end: openEnd, text: changeTag(tag, outgrown, ">") });
  const afterLast = cells.rowFirstCells[rowIndex + 1] as number;
  for (const edit of edits) {
    const next = ~findCell(cells, rowIndex, edit.column);
    const at = next < afterLast ? (cells.starts[next] as number) : bytes.lastIndexOf(0x3c, end - 1);
    splices.push({ start: at, end: at, text: cellXml(edit) });
  }
  return splices;
}

function isInSpans(tag: string, column: number): boolean {
  const [, spans] = /\sspans\s*=\s*["']([^"']*)["']/.exec(tag) ?? [];
  if (spans === undefined) return true;
  return spans.split(/\s+/).some((span) => {
    const [first, last] = span.split(":").map(Number);
    return first !== undefined && last !== undefined && column >= first && column <= last;
  });
}

/** Widens the dimension so that it covers new cells. */
function growDimension(sheet: Sheet, bytes: Uint8Array, added: readonly PlacedEdit[]): readonly Splice[] {
  const { dimension } = sheet.layout;
  if (dimension?.range === undefined) return [];
  const { range, start, end } = dimension;
  const outside = added.filter(({ row, column }) => !isInRange(range, row, column));
  if (outside.length === 0) return [];
  const grown = outside.reduce(
    (block, { row, column }) => ({
      firstRow: Math.min(block.firstRow, row),
      firstColumn: Math.min(block.firstColumn, column),
      lastRow: Math.max(block.lastRow, row),
      lastColumn: Math.max(block.lastColumn, column),
    }),
    range,
  );
  const tag = utf8Text(bytes.subarray(start, end));
  const ending = tag.endsWith("/>") ? "/>" : ">";
  return [{ start, end, text: changeTag(tag, { ref: formatRange(grown) }, ending) }];
}
