import {
  type Cell,
  type CellFormula,
  type CellRange,
  type CellValue,
  cellCount,
  cellsIn,
  type FormulaEdit,
  formatAddress,
  formulaCellsOf,
  readSheet,
  type Sheet,
  type Table,
  valueAt,
  type Workbook,
  type WorkbookEdit,
} from "../../xlsx/index.js";
import { placeOf, readOptionalPart, readPart } from "../../xlsx/package/read-part.js";
import { prefixAt, readXml } from "../../xlsx/xml/read-xml.js";
import { type Splice, spliceBytes } from "../../xlsx/xml/splice.js";
import { escapeXml } from "../../xlsx/xml/text.js";
import { type CallingNames, callingNamesIn } from "./calling-names.js";
import type { Handoff } from "./handoff.js";
import type { HandoffCell } from "./handoff-cell.js";
import {
  asValue,
  type FormulaHome,
  type HandoffFormula,
  handoffBlock,
  handoffFormula,
  notedValue,
  type ValueHandoff,
} from "./handoff-formula.js";
import { noteSheetEdits } from "./note-sheet.js";
import { type Places, placesIn } from "./places.js";

interface CellHandoff {
  readonly edit: FormulaEdit;
  readonly cell: HandoffCell;
  readonly isPlain: boolean;
}

/** How a cell of a workbook holds its formula. */
function homeOf(places: Places, sheet: Sheet, cell: Cell, { kind, isDynamic, range }: CellFormula): FormulaHome {
  const form = kind !== "array" ? "plain" : isDynamic ? "dynamic" : "array";
  const place = { sheet: sheet.name, row: cell.row, column: cell.column };
  return { places, place, form, fills: kind === "array" ? range : undefined, keepsTables: false };
}

function made(
  sheet: Sheet,
  address: string,
  value: CellValue,
  handoff: Exclude<HandoffFormula, { readonly kind: "unchanged" }>,
  form: Pick<FormulaEdit, "form" | "range">,
): CellHandoff {
  const isPlain = handoff.kind === "plain";
  const formula = isPlain ? handoff.formula : notedValue(value, handoff.functions);
  return {
    edit: { kind: "formula", sheet: sheet.name, address, formula, result: value, ...form },
    cell: {
      sheet: sheet.name,
      address,
      functions: handoff.functions,
      reasons: isPlain ? [] : handoff.reasons,
    },
    isPlain,
  };
}

/** A formula of one cell alone, in which an array formula stays one. */
function oneCell(sheet: Sheet, cell: Cell, home: FormulaHome, handoff: HandoffFormula): readonly CellHandoff[] {
  if (handoff.kind === "unchanged") return [];
  const { address, value } = cell;
  if (handoff.kind === "value" || !handoff.isArray) return [made(sheet, address, value, handoff, { form: "plain" })];
  return [made(sheet, address, value, handoff, home.form === "plain" ? { form: "array" } : { form: "keep" })];
}

/** A formula that fills several cells: each with a formula of its own, or with its value, or all with the formula. */
function block(sheet: Sheet, cell: Cell, formula: string, home: FormulaHome, fills: CellRange): readonly CellHandoff[] {
  const { firstRow, firstColumn } = fills;
  const shown = function* () {
    for (const { row, column } of cellsIn(sheet, fills)) yield { row: row - firstRow, column: column - firstColumn };
  };
  const cells = handoffBlock(formula, home, shown());
  if (cells === undefined) {
    const whole = handoffFormula(formula, { ...home, form: "array" });
    return whole.kind === "unchanged" ? [] : [made(sheet, cell.address, cell.value, whole, { form: "keep" })];
  }
  return cells.flatMap(({ row, column, handoff }) => {
    if (handoff.kind === "unchanged") return [];
    const [down, across] = [fills.firstRow + row, fills.firstColumn + column];
    const address = formatAddress(down, across);
    const form: Pick<FormulaEdit, "form" | "range"> =
      handoff.kind === "plain" && handoff.isArray ? { form: "array", range: address } : { form: "plain" };
    return [made(sheet, address, valueAt(sheet, down, across), handoff, form)];
  });
}

function cellHandoffs(places: Places, names: CallingNames, sheet: Sheet): readonly CellHandoff[] {
  return [...formulaCellsOf(sheet)].flatMap((cell) => {
    const { formula } = cell;
    if (formula.kind === "dataTable") return [];
    const home = homeOf(places, sheet, cell, formula);
    const written = names.writtenOut(formula.text, home.place);
    if (written?.kind === "stuck") {
      return stuckCells(sheet, cell, home.fills, asValue(written.ids, [written.reason]));
    }
    const text = written?.formula ?? formula.text;
    if (home.fills !== undefined && cellCount(home.fills) > 1) return block(sheet, cell, text, home, home.fills);
    return oneCell(sheet, cell, home, handoffFormula(text, home));
  });
}

/** The cells that a formula fills, each with its value. */
function stuckCells(
  sheet: Sheet,
  cell: Cell,
  fills: CellRange | undefined,
  handoff: ValueHandoff,
): readonly CellHandoff[] {
  const cells = fills === undefined ? [cell] : [...cellsIn(sheet, fills)];
  return cells.map(({ row, column }) => {
    const value = valueAt(sheet, row, column);
    return made(sheet, formatAddress(row, column), value, handoff, { form: "plain" });
  });
}

/** A table fills new rows by a formula of its own: it becomes plain too, or is left out. */
function tableEdit(places: Places, names: CallingNames, sheet: Sheet, table: Table): readonly WorkbookEdit[] {
  const { partName, columns } = table;
  const { archive } = sheet.workbook;
  const home = homeOfColumns(places, sheet, table);
  const handoffOfColumn = (formula: string): HandoffFormula => {
    const written = names.writtenOut(formula, home.place);
    return written?.kind === "stuck"
      ? asValue(written.ids, [written.reason])
      : handoffFormula(written?.formula ?? formula, home);
  };
  const calls = (formula: string | undefined) => formula !== undefined && handoffOfColumn(formula).kind !== "unchanged";
  if (!columns.some(({ calculatedFormula }) => calls(calculatedFormula))) return [];
  const part = readPart(archive, partName);
  const splices: Splice[] = [];
  let formula: { readonly start: number; text: string } | undefined;
  readXml(part, placeOf(archive, partName), {
    open(name, _attributes, depth, start) {
      if (depth === 4 && name === "calculatedColumnFormula") formula = { start, text: "" };
    },
    text(chunk) {
      if (formula !== undefined) formula.text += chunk;
    },
    close(name, depth, _start, end) {
      if (depth !== 4 || formula === undefined) return;
      const { start, text } = formula;
      const handoff = handoffOfColumn(text);
      const tag = prefixAt(part, start) + name;
      formula = undefined;
      if (handoff.kind === "unchanged") return;
      const array = handoff.kind === "plain" && handoff.isArray ? ' array="1"' : "";
      const plain = handoff.kind === "plain" ? `<${tag}${array}>${escapeXml(handoff.formula)}</${tag}>` : "";
      splices.push({ start, end, text: plain });
    },
  });
  return [{ kind: "part", partName, content: spliceBytes(part, splices) }];
}

/**
 * The formula of a column is seen from the first row of its table. It keeps its references to the table, by which a new
 * row finds its own cells.
 */
function homeOfColumns(places: Places, sheet: Sheet, { range, headerRows }: Table): FormulaHome {
  const place = { sheet: sheet.name, row: range.firstRow + headerRows, column: range.firstColumn };
  return { places, place, form: "plain", fills: undefined, keepsTables: true };
}

/** The parts by which Excel would offer the add-in; a copy for people without it does not ask for it. */
function addinEdits(workbook: Workbook): readonly WorkbookEdit[] {
  const parts = ["xl/webextensions/taskpanes.xml", "xl/webextensions/webextension1.xml"];
  return parts
    .filter((partName) => readOptionalPart(workbook.archive, partName) !== undefined)
    .map((partName) => ({ kind: "removePart", partName }));
}

/**
 * Works out a workbook without our functions: every call as a plain formula that any spreadsheet program calculates, or
 * as its value with a note. Everything else stays as it is.
 *
 * @param workbook - As opened, its results calculated
 */
export function plainFormulasOf(workbook: Workbook): Handoff {
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  const places = placesIn(workbook);
  const calling = callingNamesIn(workbook, places);
  const { names, edits: nameEdits } = calling.handedOff();
  const cells = sheets.flatMap((sheet) => cellHandoffs(places, calling, sheet));
  const plain = cells.filter(({ isPlain }) => isPlain).map(({ cell }) => cell);
  const values = cells.filter(({ isPlain }) => !isPlain).map(({ cell }) => cell);
  if (cells.length === 0 && names.length === 0) return { edits: [], plain, values, names };
  const edits = [
    ...cells.map(({ edit }) => edit),
    ...sheets.flatMap((sheet) => sheet.tables.flatMap((table) => tableEdit(places, calling, sheet, table))),
    ...addinEdits(workbook),
    ...nameEdits,
  ];
  return { edits, plain, values, names };
}

/**
 * Works out the hand-off copy of a workbook: its formulas plain, and a sheet that says so.
 *
 * @param workbook - As opened, its results calculated
 */
export function handoffOf(workbook: Workbook): Handoff {
  const handoff = plainFormulasOf(workbook);
  if (handoff.edits.length === 0) return handoff;
  return { ...handoff, edits: [...handoff.edits, ...noteSheetEdits(workbook, handoff)] };
}
