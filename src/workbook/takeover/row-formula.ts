import { columnNumber } from "../../xlsx/address.js";
import { scanFormula } from "../../xlsx/index.js";
import type { SheetSource } from "../source/index.js";

/** What the formula of a row takes from its own row, through formulas of that row too. */
export interface RowFormula {
  /** Columns of single cells and of ranges, where a value was typed. */
  readonly columns: ReadonlySet<number>;
  /** Those that a mean goes through. */
  readonly averaged: ReadonlySet<number>;
  /** Numbers that stand in the formulas. */
  readonly constants: readonly number[];
  /** Functions that stand in the formulas, in capitals. */
  readonly functions: ReadonlySet<string>;
  /** Other rows that the formulas read, where a row was not fixed by a dollar sign. */
  readonly otherRows: ReadonlySet<number>;
  /** Single cells of the sheet that the formulas fix by dollar signs, in other rows. */
  readonly fixedCells: readonly { readonly row: number; readonly column: number }[];
  /** Single cells that the formulas take and that are empty, such as `N3`. */
  readonly emptyCells: readonly string[];
  /** Columns of the quotient where the formula is nothing but one, as a percent of design is. */
  readonly quotient: readonly [over: number, under: number] | undefined;
}

/** Formulas within formulas; a sheet whose formulas go round in a circle ends here. */
const DEEPEST = 6;
const MEANS = new Set(["AVERAGE", "AVERAGEA", "MEDIAN", "TRIMMEAN", "AVERAGEIF"]);
const CELL = /^\$?([A-Z]{1,3})\$?(\d+)$/i;

interface Gathered {
  readonly columns: Set<number>;
  readonly averaged: Set<number>;
  readonly constants: number[];
  readonly functions: Set<string>;
  readonly otherRows: Set<number>;
  readonly fixedCells: { readonly row: number; readonly column: number }[];
  readonly emptyCells: string[];
}

const isEmpty = (source: SheetSource, row: number, column: number) =>
  source.valueAt(row, column) === null && source.formulaAt(row, column) === undefined;

function gather(
  source: SheetSource,
  row: number,
  column: number,
  isMean: boolean,
  depth: number,
  into: Gathered,
): void {
  const text = source.formulaAt(row, column);
  if (text === undefined || depth > DEEPEST) {
    into.columns.add(column);
    if (isMean) into.averaged.add(column);
    return;
  }
  const tokens = scanFormula(text).filter(({ text: piece }) => piece.trim() !== "");
  const open: boolean[] = [];
  for (let at = 0; at < tokens.length; at += 1) {
    const { kind, text: piece } = tokens[at] ?? { kind: "other", text: "" };
    if (kind === "name" && tokens[at + 1]?.text === "(") into.functions.add(piece.toUpperCase());
    if (piece === "(") open.push(MEANS.has(tokens[at - 1]?.text.toUpperCase() ?? ""));
    else if (piece === ")") open.pop();
    else if (kind === "number") into.constants.push(Number(piece));
    else if (kind === "cell" && tokens[at - 1]?.text !== "!") {
      const [, first = "", firstRow = ""] = CELL.exec(piece) ?? [];
      const end = tokens[at + 1]?.text === ":" ? CELL.exec(tokens[at + 2]?.text ?? "") : null;
      if (end !== null) at += 2;
      const inMean = isMean || open.includes(true);
      if (Number(firstRow) !== row && !/\$\d/.test(piece)) into.otherRows.add(Number(firstRow));
      if (end === null && !inMean && isEmpty(source, Number(firstRow), columnNumber(first))) {
        into.emptyCells.push(piece.replaceAll("$", "").toUpperCase());
      }
      if (end === null && Number(firstRow) !== row && /\$\d/.test(piece)) {
        into.fixedCells.push({ row: Number(firstRow), column: columnNumber(first) });
      }
      if (Number(firstRow) !== row || (end !== null && Number(end[2]) !== row)) continue;
      const last = end?.[1] ?? first;
      for (let one = columnNumber(first); one <= columnNumber(last); one += 1) {
        if (one !== column) gather(source, row, one, inMean, depth + 1, into);
      }
    }
  }
}

function quotientOf(text: string, row: number): RowFormula["quotient"] {
  const plain = text.replace(/\s|\$/g, "");
  const [, over = "", overRow, under = "", underRow] =
    /(?:^|[(,])([A-Z]{1,3})(\d+)\/([A-Z]{1,3})(\d+)(?:$|[),*])/i.exec(plain) ?? [];
  if (Number(overRow) !== row || Number(underRow) !== row) return undefined;
  return [columnNumber(over), columnNumber(under)];
}

/** Reads what the formula of a cell takes from its own row; undefined where it holds none. */
export function rowFormulaAt(source: SheetSource, row: number, column: number): RowFormula | undefined {
  const text = source.formulaAt(row, column);
  if (text === undefined) return undefined;
  const into: Gathered = {
    ...{ columns: new Set<number>(), averaged: new Set<number>(), constants: [] },
    ...{ functions: new Set<string>(), otherRows: new Set<number>(), fixedCells: [], emptyCells: [] },
  };
  gather(source, row, column, false, 0, into);
  into.columns.delete(column);
  return { ...into, quotient: quotientOf(text, row) };
}
