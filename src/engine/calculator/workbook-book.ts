import { relativeForm } from "../../xlsx/index.js";
import { Budget } from "../formula/budget.js";
import { compileFormula } from "../formula/compile-formula.js";
import type { Book, Compiled, Context } from "../formula/context.js";
import { FormulaFault, parseFormula } from "../formula/parse-formula.js";
import type { Range } from "../formula/values.js";
import type { SheetCells } from "./sheet-cells.js";
import type { FormulaSource } from "./source.js";

/** A workbook as its formulas see it while it is calculated. */
export interface WorkbookBook extends Book {
  readonly grids: readonly SheetCells[];
}

/**
 * @param source - The workbook
 * @param grids - Its cells
 * @param formulaCount - How many formulas there are to calculate, which the budget grows with
 * @param needCells - Told of blocks that are only known while a formula is calculated
 */
export function workbookBook(
  source: FormulaSource,
  grids: readonly SheetCells[],
  formulaCount: number,
  needCells: (block: Range) => void,
): WorkbookBook {
  const byName = new Map(grids.map((grid) => [grid.name.toLowerCase(), grid]));
  const spelledNames = grids.map(
    ({ sheet }) =>
      new Map([...source.names, ...(sheet.names ?? [])].map(([name, refersTo]) => [name.toUpperCase(), refersTo])),
  );
  const compiledNames = new Map<string, Compiled | FormulaFault>();
  const compiledTexts = new Map<string, Compiled>();

  function compiledName(refersTo: string): Compiled {
    let known = compiledNames.get(refersTo);
    if (known === undefined) {
      known = compiled(refersTo);
      compiledNames.set(refersTo, known);
    }
    if (known instanceof FormulaFault) throw known;
    return known;
  }

  return {
    grids,
    budget: new Budget(formulaCount),
    memory: new Map(),
    needCells,
    gridNamed: (name) => byName.get(name.toLowerCase()),
    nameOn(sheet, name) {
      const refersTo = spelledNames[sheet]?.get(name.toUpperCase());
      return refersTo === undefined ? undefined : compiledName(refersTo);
    },
    compileText(text: string, { grid, row, column }: Context) {
      const cell = { sheet: grid.name, row, column };
      const plain = source.withoutTables === undefined ? text : source.withoutTables(text, cell);
      if (plain === undefined) throw new FormulaFault("it names a table that is not there", "#REF!");
      const form = relativeForm(plain, row, column);
      let known = compiledTexts.get(form);
      if (known === undefined) {
        known = compileFormula(parseFormula(plain, row, column), true);
        compiledTexts.set(form, known);
      }
      return known;
    },
  };
}

/** A name's formula as seen from the first cell of a sheet, which its references without a dollar sign go by. */
function compiled(refersTo: string): Compiled | FormulaFault {
  try {
    return compileFormula(parseFormula(refersTo, 1, 1), true);
  } catch (thrown) {
    if (thrown instanceof FormulaFault)
      return new FormulaFault(`a name in it is a formula that is not calculated here (${thrown.message})`);
    throw thrown;
  }
}
