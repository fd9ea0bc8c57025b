import { CompiledFormula, type Model } from "@odoo/o-spreadsheet";
import { relativeForm } from "../../xlsx/index.js";

/** A formula as it was read, and whether the library spells it just as it was given. */
export interface ReadFormula {
  readonly compiled: CompiledFormula;
  readonly isSpelledAlike: boolean;
}

interface FirstOfAlike extends ReadFormula {
  readonly col: number;
  readonly row: number;
}

/** Blocks in relative form whose two corners move alike, so that they have the same shape wherever they are. */
const KEEPS_SHAPE = new RegExp(
  [
    String.raw`C\[-?\d+\]R\[-?\d+\]:C\[-?\d+\]R\[-?\d+\]`,
    String.raw`C[A-Z]+R\[-?\d+\]:C[A-Z]+R\[-?\d+\]`,
    String.raw`C\[-?\d+\]R\d+:C\[-?\d+\]R\d+`,
    String.raw`C[A-Z]+R\d+:C[A-Z]+R\d+`,
    String.raw`\$[A-Z]+:\$[A-Z]+`,
  ].join("|"),
  "gi",
);

/** Whether each block of a formula keeps its shape; `A$1:A1` grows from row to row. */
const keepsShapes = (form: string): boolean => !form.replace(KEEPS_SHAPE, "").includes(":");

function canBeMoved({ isBadExpression, rangeDependencies }: CompiledFormula): boolean {
  return (
    !isBadExpression &&
    rangeDependencies.every(
      ({ invalidXc, invalidSheetName, zone }) =>
        invalidXc === undefined && invalidSheetName === undefined && zone.left >= 0 && zone.top >= 0,
    )
  );
}

/**
 * Returns what reads the formulas of a sheet. Of those that say the same from their own cells only the first is parsed; the
 * library reads each for itself, and keeps all pieces of each.
 */
export function formulaReader(
  { getters }: Model,
  sheetId: string,
): (content: string, col: number, row: number) => ReadFormula {
  /** The first of those that say the same; null where each has to be read. */
  const alike = new Map<string, FirstOfAlike | null>();
  const compile = (content: string) => CompiledFormula.Compile(content, sheetId, getters);
  return (content, col, row) => {
    const form = relativeForm(content, row + 1, col + 1);
    const first = alike.get(form);
    if (first == null) {
      const compiled = compile(content);
      const isFirst = first === undefined && keepsShapes(form) && canBeMoved(compiled);
      const read = { compiled, isSpelledAlike: isFirst && compiled.toFormulaString(getters) === content };
      if (first === undefined) alike.set(form, isFirst ? { ...read, col, row } : null);
      return read;
    }
    const { compiled, isSpelledAlike } = first;
    const ranges = getters.createAdaptedRanges(compiled.rangeDependencies, col - first.col, row - first.row, sheetId);
    return { compiled: CompiledFormula.CopyWithDependencies(compiled, sheetId, ranges), isSpelledAlike };
  };
}
