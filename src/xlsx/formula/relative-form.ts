import { columnNumber } from "../address.js";

/** A text in quotes, a sheet name in quotes, or a reference: to cells, to whole columns, to whole rows. */
const PIECES = new RegExp(
  [
    '"(?:[^"]|"")*"',
    "'(?:[^']|'')*'",
    String.raw`(?<![\w.$])(?:(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})(?![\w.(])`,
    String.raw`(\$?[A-Za-z]{1,3}):(\$?[A-Za-z]{1,3})(?![\w.(!$])`,
    String.raw`(\$?\d{1,7}):(\$?\d{1,7})(?![\w.$]))`,
  ].join("|"),
  "g",
);

/**
 * Returns a formula in relative form: the same text for every formula that reads the same from its own cell.
 *
 * @param text - Without the equals sign
 * @example
 * relativeForm("A1*$B$1", 1, 2) // => "C[-1]R[0]*CBR1"
 */
export function relativeForm(text: string, row: number, column: number): string {
  const columnOf = (letters: string) => (letters.startsWith("$") ? letters : `C[${columnNumber(letters) - column}]`);
  const rowOf = (digits: string) => (digits.startsWith("$") ? digits : `R[${Number(digits) - row}]`);
  return text.replace(PIECES, (piece: string, ...groups: (string | undefined)[]) => {
    const [fixedColumn, letters, fixedRow, digits, firstColumn, lastColumn, firstRow, lastRow] = groups;
    if (letters !== undefined && digits !== undefined) {
      const columns = fixedColumn === "$" ? `C${letters}` : `C[${columnNumber(letters) - column}]`;
      return columns + (fixedRow === "$" ? `R${digits}` : `R[${Number(digits) - row}]`);
    }
    if (firstColumn !== undefined && lastColumn !== undefined)
      return `${columnOf(firstColumn)}:${columnOf(lastColumn)}`;
    if (firstRow !== undefined && lastRow !== undefined) return `${rowOf(firstRow)}:${rowOf(lastRow)}`;
    return piece;
  });
}
