import type { Cell } from "hucre";
import { columnLetters } from "../../xlsx/address.js";
import { encodeXstring, escapeXml } from "../../xlsx/xml/text.js";
import type { CellPlan, SheetPlan } from "../template/sheet-plan.js";
import { storedFormula } from "../template/stored-formula.js";
import type { CalculatedCell } from "./calculated-values.js";
import { cellStyle } from "./cell-style.js";
import { place } from "./place.js";

/*
 * The rows of a long report. The library looks every cell's style up by its fonts, borders and fills, which for a hundred
 * thousand cells of a dozen looks takes more time than all the rest of a summary. It is handed one cell of each look, and
 * the rows are written here under the numbers that it gives them.
 */

/** Sheets with fewer cells are left to the library. */
const MANY_CELLS = 3000;

/** Whether a sheet's rows are written here. */
export function hasManyRows({ role, cells }: SheetPlan): boolean {
  return role === "report" && cells.length > MANY_CELLS;
}

const lookOf = ({ style, format }: CellPlan) => `${style} ${format}`;

/** One cell of each look of a sheet, in its first row. */
export function lookCells({ cells }: SheetPlan): Map<string, Partial<Cell>> {
  const looks = new Map(cells.map((one) => [lookOf(one), one]));
  return new Map(
    [...looks.values()].map(({ style, format }, index) => [
      `0,${index}`,
      { value: null, style: cellStyle(style, format) },
    ]),
  );
}

/** The number of each look, as the library has written the cells of `lookCells`. */
function styleNumbers({ cells }: SheetPlan, data: string): ReadonlyMap<string, string> {
  const numbers = [...data.matchAll(/<c r="[A-Z]+1"(?: s="(\d+)")?\/>/g)].map(([, number = "0"]) => number);
  const looks = [...new Set(cells.map(lookOf))];
  if (numbers.length !== looks.length) throw new Error("The writer no longer writes an empty cell for its look.");
  return new Map(looks.map((look, index) => [look, numbers[index] ?? "0"]));
}

function textXml(text: string): string {
  const space = text.trim() === text ? "" : ' xml:space="preserve"';
  return `<is><t${space}>${escapeXml(encodeXstring(text))}</t></is>`;
}

function cellXml({ at, content }: CellPlan, number: string, result: CalculatedCell | undefined): string {
  const tag = `<c r="${at}" s="${number}"`;
  if (typeof content === "string" && content.startsWith("=")) {
    if (result === undefined) throw new Error(`${at} was not calculated.`);
    const formula = `<f>${escapeXml(storedFormula(content))}</f>`;
    if (typeof result.value === "number") return `${tag}>${formula}<v>${result.value}</v></c>`;
    return `${tag} t="str">${formula}<v>${escapeXml(encodeXstring(String(result.value)))}</v></c>`;
  }
  if (typeof content === "number" && Number.isFinite(content)) return `${tag}><v>${content}</v></c>`;
  if (typeof content === "boolean") return `${tag} t="b"><v>${content ? 1 : 0}</v></c>`;
  return typeof content === "string" ? `${tag} t="inlineStr">${textXml(content)}</c>` : `${tag}/>`;
}

/**
 * Puts the rows of a long report into its part.
 *
 * @param part - As the library has written it from the cells of `lookCells`
 * @param results - The result of every formula, by address
 */
export function withManyRows(part: string, plan: SheetPlan, results: ReadonlyMap<string, CalculatedCell>): string {
  const [data = ""] = /<sheetData>.*<\/sheetData>/s.exec(part) ?? [];
  const numbers = styleNumbers(plan, data);
  const rows: { readonly column: number; readonly xml: string }[][] = [];
  let lastColumn = 0;
  for (const cell of plan.cells) {
    const { row, col: column } = place(cell.at);
    lastColumn = Math.max(lastColumn, column);
    const xml = cellXml(cell, numbers.get(lookOf(cell)) ?? "0", results.get(cell.at));
    rows[row] ??= [];
    rows[row].push({ column, xml });
  }
  const written = rows.map((cells, index) => {
    const height = plan.rowHeights[index + 1];
    const look = height === undefined ? "" : ` ht="${height}" customHeight="1"`;
    const inOrder = cells.sort((one, other) => one.column - other.column).map(({ xml }) => xml);
    return `<row r="${index + 1}"${look}>${inOrder.join("")}</row>`;
  });
  const last = `${columnLetters(lastColumn + 1)}${rows.length}`;
  return part
    .replace(/<dimension [^>]*\/>/, `<dimension ref="A1:${last}"/>`)
    .replace(data, () => `<sheetData>${written.join("")}</sheetData>`);
}
