import { columnLetters, parseAddress } from "../address.js";
import { WORKBOOK_LIMITS } from "../limits.js";
import { scanFormula } from "./scan-formula.js";

/**
 * Returns a formula as it reads after its cell has moved: relative references move along, references with a dollar sign
 * stay, and what would leave the sheet becomes #REF!.
 *
 * @param formula - Without the equals sign
 * @param rows - Rows down, negative for up
 * @param columns - Columns to the right, negative for left
 * @example
 * moveFormula("A1*$B$1", 2, 0) // => "A3*$B$1"
 */
export function moveFormula(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  return scanFormula(formula)
    .map(({ kind, text }, index, tokens) => {
      // The first of several sheets may look like a cell.
      const isSheet = tokens[index + 1]?.text === ":" && tokens[index + 3]?.text === "!";
      if (kind === "cell") return isSheet ? text : moveCell(text, rows, columns);
      if (kind !== "columns" && kind !== "rows") return text;
      const [first = "", last = ""] = text.split(":");
      const move = kind === "columns" ? (end: string) => moveColumn(end, columns) : (end: string) => moveRow(end, rows);
      const ends = [move(first), move(last)];
      return ends.includes(undefined) ? "#REF!" : ends.join(":");
    })
    .join("");
}

function moveCell(text: string, rows: number, columns: number): string {
  // Three letters and digits beyond the sheet are a name, not a cell.
  if (parseAddress(text) === undefined) return text;
  const [, column = "", row = ""] = /^(\$?[A-Za-z]+)(\$?\d+)$/.exec(text) ?? [];
  const movedColumn = moveColumn(column, columns);
  const movedRow = moveRow(row, rows);
  return movedColumn === undefined || movedRow === undefined ? "#REF!" : movedColumn + movedRow;
}

function moveColumn(text: string, columns: number): string | undefined {
  if (text.startsWith("$")) return text;
  const column = parseAddress(`${text}1`)?.column;
  if (column === undefined) return text;
  const moved = column + columns;
  return moved < 1 || moved > WORKBOOK_LIMITS.columns ? undefined : columnLetters(moved);
}

function moveRow(text: string, rows: number): string | undefined {
  if (text.startsWith("$")) return text;
  const moved = Number(text) + rows;
  return moved < 1 || moved > WORKBOOK_LIMITS.rows ? undefined : String(moved);
}
