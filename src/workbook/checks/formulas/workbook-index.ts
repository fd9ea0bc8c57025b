import type { ParameterRole } from "../../../cells/index.js";
import {
  type CellRange,
  cellCount,
  cellsMeant,
  formatAddress,
  formatRange,
  type Reference,
  readReference,
  relativeForm,
  withoutTableReferences,
} from "../../../xlsx/index.js";
import { type FoundLists, findLists } from "../../lists/index.js";
import type { SourceValue } from "../../source/index.js";
import type { CheckedFormula, CheckedSheet, CheckedWorkbook } from "../source/checked-workbook.js";
import {
  allCalls,
  type Operand,
  type ParsedArgument,
  type ParsedCall,
  type ParsedText,
  parseFormula,
} from "./parse-formula.js";
import { placesOf } from "./roles.js";

/** A block of cells on one of the sheets. */
export interface PlacedRange {
  /** Its place in the list of sheets. */
  readonly sheet: number;
  readonly range: CellRange;
}

/** A formula and where it stands. */
export interface PlacedFormula extends CheckedFormula {
  readonly sheet: number;
  /** The same text for every formula that reads the same from its own cell. */
  readonly form: string;
}

/** A call of one of our functions in a formula. */
export interface PlacedCall {
  readonly formula: PlacedFormula;
  readonly call: ParsedCall;
}

/** What the checks ask of a workbook. */
export interface WorkbookIndex {
  readonly workbook: CheckedWorkbook;
  readonly sheets: readonly CheckedSheet[];
  /** The lists of outlets in the workbook. */
  readonly lists: FoundLists;
  readonly formulas: readonly PlacedFormula[];
  /** Every call of our functions, formula by formula. */
  readonly calls: readonly PlacedCall[];
  formulaAt(sheet: number, row: number, column: number): PlacedFormula | undefined;
  parsed(formula: PlacedFormula): ParsedText;
  valueAt(sheet: number, row: number, column: number): SourceValue;
  /** The cells that an operand means in a formula, cut to the used part of its sheet; undefined where it means none. */
  resolve(operand: Operand, formula: PlacedFormula): PlacedRange | undefined;
}

const COLUMNS = 16_385;

/** Nobody's readings, sizes or factors fill more cells than this. */
const MOST_CELLS = 1_000_000;

/** What a defined name refers to stands in no cell. */
const NO_CELL = { sheet: "", row: 1, column: 1 };
const CALLS_VANE = /VANE[._]/i;

export function callsVane({ text }: CheckedFormula): boolean {
  return CALLS_VANE.test(text);
}

function scopedName(sheet: string | undefined, name: string): string {
  return `${sheet?.toLowerCase() ?? ""}!${name.toLowerCase()}`;
}

/** Makes a workbook ready for the checks. Formulas that read the same from their own cells are read once. */
export function indexWorkbook(workbook: CheckedWorkbook): WorkbookIndex {
  const { sheets, tables } = workbook;
  const sheetNumbers = new Map(sheets.map(({ name }, index) => [name.toLowerCase(), index]));
  const names = new Map(workbook.names.map(({ sheet, name, refersTo }) => [scopedName(sheet, name), refersTo]));
  const formulas: PlacedFormula[] = sheets.flatMap((sheet, number) =>
    sheet.formulas.map((formula) => {
      const { row, column, text } = formula;
      return { ...formula, sheet: number, form: relativeForm(text, row, column) };
    }),
  );
  const byCell = sheets.map(() => new Map<number, PlacedFormula>());
  for (const formula of formulas) byCell[formula.sheet]?.set(formula.row * COLUMNS + formula.column, formula);

  const read = new Map<string, ParsedText>();
  /** A reference to this row of a table depends on the row alone, every other one on the formula's cell. */
  function parsed(formula: PlacedFormula): ParsedText {
    const { text, row, column, form } = formula;
    const cell = { sheet: sheets[formula.sheet]?.name ?? "", row, column };
    const plain = text.includes("[") ? (withoutTableReferences(text, cell, tables) ?? text) : text;
    const key = plain === text ? form : relativeForm(plain, row, column);
    const known = read.get(key) ?? parseFormula(plain, row, column);
    read.set(key, known);
    return known;
  }

  const namedReferences = new Map<string, Reference | undefined>();
  function named(name: string, sheet: number): Reference | undefined {
    const refersTo = names.get(scopedName(sheets[sheet]?.name, name)) ?? names.get(scopedName(undefined, name));
    if (refersTo === undefined) return undefined;
    if (!namedReferences.has(refersTo)) {
      const plain = refersTo.includes("[") ? (withoutTableReferences(refersTo, NO_CELL, tables) ?? "") : refersTo;
      namedReferences.set(refersTo, readReference(plain, 1, 1));
    }
    return namedReferences.get(refersTo);
  }

  function resolve(operand: Operand, { sheet, row, column }: PlacedFormula): PlacedRange | undefined {
    const reference = "name" in operand ? named(operand.name, sheet) : operand.reference;
    if (reference === undefined) return undefined;
    const number = reference.sheet === null ? sheet : sheetNumbers.get(reference.sheet.toLowerCase());
    const target = number === undefined ? undefined : sheets[number];
    if (number === undefined || target === undefined) return undefined;
    const range = lookedAt(cellsMeant(reference, row, column, target), target);
    return range === undefined ? undefined : { sheet: number, range };
  }

  return {
    workbook,
    sheets,
    lists: findLists(workbook),
    formulas,
    calls: formulas
      .filter(callsVane)
      .flatMap((formula) => allCalls(parsed(formula)).map((call) => ({ formula, call }))),
    formulaAt: (sheet, row, column) => byCell[sheet]?.get(row * COLUMNS + column),
    parsed,
    valueAt: (sheet, row, column) => sheets[sheet]?.valueAt(row, column) ?? null,
    resolve,
  };
}

/** The part of a very large block in which anything stands; nothing where that is very large too. */
function lookedAt(range: CellRange, used: { readonly lastRow: number; readonly lastColumn: number }) {
  if (cellCount(range) <= MOST_CELLS) return range;
  const { firstRow, firstColumn } = range;
  const lastRow = Math.min(range.lastRow, used.lastRow);
  const lastColumn = Math.min(range.lastColumn, used.lastColumn);
  const part = { firstRow, firstColumn, lastRow, lastColumn };
  return lastRow < firstRow || lastColumn < firstColumn || cellCount(part) > MOST_CELLS ? undefined : part;
}

/** The arguments of a call that play a role, those that were left out excepted. */
export function argumentsOf({ call }: PlacedCall, role: ParameterRole): readonly ParsedArgument[] {
  return placesOf(call.id, role).flatMap((place) => {
    const argument = call.arguments[place];
    return argument === undefined || argument.isOmitted ? [] : [argument];
  });
}

/** The first of them. */
export function argumentOf(call: PlacedCall, role: ParameterRole): ParsedArgument | undefined {
  return argumentsOf(call, role)[0];
}

/** The cells of an argument that is one reference and no more. */
export function blockOf(
  index: WorkbookIndex,
  argument: ParsedArgument | undefined,
  formula: PlacedFormula,
): PlacedRange | undefined {
  return argument?.only && index.resolve(argument.only, formula);
}

export function isOneCell({ range }: PlacedRange): boolean {
  return range.firstRow === range.lastRow && range.firstColumn === range.lastColumn;
}

/** The value of an argument that is one cell or a constant; undefined for anything else. */
export function singleValue(
  index: WorkbookIndex,
  argument: ParsedArgument | undefined,
  formula: PlacedFormula,
): SourceValue | undefined {
  if (argument?.literal !== undefined) return argument.literal;
  const block = blockOf(index, argument, formula);
  if (block === undefined || !isOneCell(block)) return undefined;
  return index.valueAt(block.sheet, block.range.firstRow, block.range.firstColumn);
}

/** Whether a call works in SI units. */
export function isInSi(index: WorkbookIndex, call: PlacedCall): boolean {
  const value = singleValue(index, argumentOf(call, "units"), call.formula);
  return typeof value === "string" && value.trim().toLowerCase() === "si";
}

/** The formula in the only cell of a block. */
export function formulaIn(index: WorkbookIndex, block: PlacedRange | undefined): PlacedFormula | undefined {
  if (block === undefined || !isOneCell(block)) return undefined;
  return index.formulaAt(block.sheet, block.range.firstRow, block.range.firstColumn);
}

export function blockKey({ sheet, range }: PlacedRange): string {
  return `${sheet}!${formatRange(range)}`;
}

/** Spells a block as a person reads it: without the sheet where it is the reader's own. */
export function spellBlock(index: WorkbookIndex, { sheet, range }: PlacedRange, own: number): string {
  const place = formatRange(range);
  return sheet === own ? place : `${index.sheets[sheet]?.name ?? ""}!${place}`;
}

export function cellOf({ row, column }: { readonly row: number; readonly column: number }): string {
  return formatAddress(row, column);
}

/** Nothing, or the empty text that a formula gives while there is nothing to show. */
export function isEmptyValue(value: SourceValue | undefined): boolean {
  return value === undefined || value === null || value === "";
}
