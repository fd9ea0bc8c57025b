import { columnNumber } from "../address.js";

/** What a name may be made of: a reference is no part of one, nor of a number such as 1E5. */
const IN_NAME = String.raw`[\p{L}\p{N}_.\\?]`;
/** Where a reference begins; what it begins with is looked at first, which is quicker. */
const BEGINS = String.raw`(?=[$A-Za-z\d])(?<!\$|${IN_NAME})`;
/** What stands behind a reference is neither the rest of a name, nor the sign of a call or a sheet, nor that of sheets. */
const ENDS = `(?!${IN_NAME}|[(!$]|:${IN_NAME}+!)`;

/**
 * A text in quotes, a sheet name in quotes, the columns of a table or another workbook in brackets, or a reference: to
 * cells, to whole columns, to whole rows. Names of sheets without quotes and headings of tables may look like cells.
 */
const PIECES = new RegExp(
  [
    '"(?:[^"]|"")*"',
    "'(?:[^']|'')*'",
    String.raw`\[(?:'[^]|[^\[\]']|\[(?:'[^]|[^\[\]'])*\])*\]`,
    String.raw`${BEGINS}(?:(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})${ENDS}`,
    String.raw`(\$?[A-Za-z]{1,3}):(\$?[A-Za-z]{1,3})${ENDS}`,
    String.raw`(\$?\d{1,7}):(\$?\d{1,7})${ENDS})`,
  ].join("|"),
  "gu",
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
