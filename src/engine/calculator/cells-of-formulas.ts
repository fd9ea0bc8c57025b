import { CellError } from "../../cells/index.js";
import { parseAddress } from "../../xlsx/index.js";
import { BeyondLimitError } from "../formula/budget.js";
import { toMatrix } from "../formula/coerce.js";
import type { Context } from "../formula/context.js";
import { FormulaFault } from "../formula/parse-formula.js";
import { Areas, Lambda, Matrix, Range, type Scalar } from "../formula/values.js";
import { calculateWorkbook } from "./calculate-workbook.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { prepare } from "./prepare.js";
import { settled } from "./run-formula.js";
import { sheetCells } from "./sheet-cells.js";
import type { FormulaSource, SourceFormula, SourceValue } from "./source.js";
import { workbookBook } from "./workbook-book.js";

const SHEET = "Sheet1";

/** A sheet of given contents, on which formulas can be calculated. */
export interface CellsOfFormulas {
  /** Calculates a formula without its equals sign, blocks whole. @throws {FormulaFault} Where it cannot be read */
  calculate(text: string): readonly (readonly Scalar[])[];
}

/** @param contents - By address; a text that begins with "=" is a formula */
export function cellsOfFormulas(contents: Readonly<Record<string, number | string | boolean | null>>): CellsOfFormulas {
  const values = new Map<string, SourceValue>();
  const formulas: SourceFormula[] = [];
  let [lastRow, lastColumn] = [1, 1];
  for (const [address, content] of Object.entries(contents)) {
    const place = parseAddress(address);
    if (place === undefined || content === null || content === "") continue;
    lastRow = Math.max(lastRow, place.row);
    lastColumn = Math.max(lastColumn, place.column);
    const isFormula = typeof content === "string" && content.startsWith("=") && content.length > 1;
    if (isFormula) formulas.push({ ...place, text: content.slice(1), fills: undefined, isDynamic: true });
    else values.set(`${place.row}:${place.column}`, content);
  }
  const source: FormulaSource = {
    names: new Map(),
    sheets: [
      {
        name: SHEET,
        lastRow,
        lastColumn,
        valueAt: (row, column) => values.get(`${row}:${column}`) ?? null,
        rowStateAt: () => "shown",
        formulas,
      },
    ],
  };
  if (formulas.length > 0) {
    for (const { row, column, value } of calculateWorkbook(source).calculated) {
      values.set(`${row}:${column}`, typeof value === "object" ? { error: value.error } : value);
    }
  }
  return { calculate: (text) => calculated(text, source) };
}

function calculated(text: string, source: FormulaSource): readonly (readonly Scalar[])[] {
  const [sheet] = source.sheets;
  if (sheet === undefined) return [];
  const grid = sheetCells(sheet, 0, () => ({ fills: undefined, isSubtotal: false }));
  const book = workbookBook(source, [grid], 1, () => undefined);
  // The formula stands below and beside all that is given, where no reference of it leads by chance.
  const place = { row: 1, column: 1 };
  const { compiled, fault } = prepare(text, place.row, place.column, true);
  if (compiled === undefined) throw new FormulaFault(fault ?? "");
  const [unknown] = compiled.unknownCalls;
  if (unknown !== undefined) throw new FormulaFault(`it calls ${unknown}, which is not known here`);
  const context: Context = { book, grid, ...place, scope: undefined, nesting: 0 };
  book.budget.begin();
  try {
    const value = compiled.evaluate(context);
    if (value instanceof Range && value.isCell) return [[settled(value.at(0, 0))]];
    if (value instanceof Matrix || value instanceof Range) {
      const { height, width } = value;
      if (height * width > CALCULATION_LIMITS.filledCells)
        throw new BeyondLimitError(`it would fill more than ${CALCULATION_LIMITS.filledCells} cells`);
      return toMatrix(value, (cells) => book.budget.spend(cells)).rows.map((row) => row.map(settled));
    }
    if (value instanceof Areas || value instanceof Lambda)
      return [[new CellError("#VALUE!", "The result is not a value that a cell can show.")]];
    return [[settled(value ?? null)]];
  } catch (thrown) {
    if (thrown instanceof BeyondLimitError)
      return [[new CellError("#NUM!", `The formula is not calculated: ${thrown.message}.`)]];
    if (thrown instanceof RangeError) return [[new CellError("#NUM!", "The formula goes too deep to be calculated.")]];
    throw thrown;
  }
}
