import type { Cell } from "hucre";
import { columnLetters } from "../../xlsx/address.js";
import { encodeXstring, escapeXml } from "../../xlsx/xml/text.js";
import type { RowContent, RowPlan, RowsPlan, SheetPlan } from "../template/sheet-plan.js";
import { storedFormula } from "../template/stored-formula.js";
import { cellStyle } from "./cell-style.js";

/*
 * The rows of a long table. The library keeps every cell and looks its style up by fonts, borders and fills, which for a
 * hundred thousand cells of a dozen looks takes more time and memory than all the rest of a summary. It is handed one
 * empty row with the look of each column, and the rows are written here under the numbers that it gives them.
 */

/** The empty row, by place. */
export function lookCells({ rows }: SheetPlan): readonly (readonly [place: string, cell: Partial<Cell>])[] {
  if (rows === null) return [];
  return rows.looks.map(({ style, format }, column) => [
    `${rows.firstRow - 1},${column}`,
    { value: null, style: cellStyle(style, format) },
  ]);
}

/**
 * Goes through a sheet's part with its rows in the place of the empty one.
 *
 * @param part - As the library has written it with `lookCells`
 */
export function* withRows(part: string, rows: RowsPlan): Generator<string> {
  const lookRow = new RegExp(`<row r="${rows.firstRow}"[^>]*>((?:<c [^>]*/>)*)</row>`).exec(part);
  const numbers = [...(lookRow?.[1] ?? "").matchAll(/ s="(\d+)"/g)].map(([, number = ""]) => number);
  if (lookRow === null || numbers.length !== rows.looks.length) {
    throw new Error("The writer no longer writes an empty cell for its look.");
  }
  const letters = rows.looks.map((_, index) => columnLetters(index + 1));
  const last = `${letters.at(-1)}${rows.firstRow + Math.max(rows.count, 1) - 1}`;
  yield part.slice(0, lookRow.index).replace(/<dimension [^>]*\/>/, `<dimension ref="A1:${last}"/>`);
  let row = rows.firstRow;
  for (const plan of rows.rows()) {
    yield rowXml(row, plan, letters, numbers);
    row += 1;
  }
  yield part.slice(lookRow.index + lookRow[0].length);
}

function rowXml(row: number, plan: RowPlan, letters: readonly string[], numbers: readonly string[]): string {
  const height = plan.height === null ? "" : ` ht="${plan.height}" customHeight="1"`;
  let xml = `<row r="${row}"${height}>`;
  plan.contents.forEach((content, index) => {
    xml += cellXml(`<c r="${letters[index]}${row}" s="${numbers[index]}"`, content);
  });
  return `${xml}</row>`;
}

function cellXml(tag: string, content: RowContent): string {
  if (typeof content === "number" && Number.isFinite(content)) return `${tag}><v>${content}</v></c>`;
  if (typeof content === "string") return `${tag} t="inlineStr">${textXml(content)}</c>`;
  if (typeof content !== "object" || content === null) return `${tag}/>`;
  const formula = `<f>${escapeXml(storedFormula(content.formula))}</f>`;
  if (typeof content.result === "number") return `${tag}>${formula}<v>${content.result}</v></c>`;
  return `${tag} t="str">${formula}<v>${escapeXml(encodeXstring(content.result ?? ""))}</v></c>`;
}

function textXml(text: string): string {
  const space = text.trim() === text ? "" : ' xml:space="preserve"';
  return `<is><t${space}>${escapeXml(encodeXstring(text))}</t></is>`;
}
