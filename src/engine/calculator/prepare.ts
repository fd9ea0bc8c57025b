import { type Reference, readReference, WORKBOOK_LIMITS } from "../../xlsx/index.js";
import { compileFormula } from "../formula/compile-formula.js";
import type { Compiled } from "../formula/context.js";
import { FormulaFault, parseFormula } from "../formula/parse-formula.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { namesIn, referencesIn } from "./references-in.js";

/** A formula made ready, for every cell in which it reads the same. */
export interface Prepared {
  /** Undefined where it cannot be calculated here. */
  readonly compiled: Compiled | undefined;
  /** Why it cannot; null when it can. */
  readonly fault: string | null;
  readonly references: readonly { readonly reference: Reference; readonly lastSheet?: string }[];
  readonly names: readonly string[];
  readonly callsVane: boolean;
  readonly makesReferences: boolean;
  readonly isSubtotal: boolean;
}

const VANE_CALL = /\b(?:VANE\.|_xldudf_VANE_)/i;
const MAKES_REFERENCES = /\b(?:INDIRECT|OFFSET)\s*\(/i;
const SUBTOTALS = /\b(?:SUBTOTAL|AGGREGATE)\s*\(/i;

function withoutTexts(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"/g, '""');
}

/** A formula that keeps its stored value. What it reads still has to be known: its value may be out of date. */
export function refused(text: string, row: number, column: number, fault: string): Prepared {
  const bare = withoutTexts(text);
  return {
    compiled: undefined,
    fault,
    references: referencesIn(text).flatMap((spelled) => {
      const reference = readReference(spelled, row, column);
      return reference === undefined ? [] : [{ reference }];
    }),
    names: namesIn(text),
    callsVane: VANE_CALL.test(bare),
    makesReferences: MAKES_REFERENCES.test(bare),
    isSubtotal: SUBTOTALS.test(bare),
  };
}

/**
 * Makes a formula ready as it stands in one cell.
 *
 * @param text - Without its equals sign
 * @param isArray - Whether it is marked as an array formula, so that blocks are calculated whole
 */
export function prepare(text: string, row: number, column: number, isArray: boolean): Prepared {
  if (text.length > WORKBOOK_LIMITS.formulaLength * 2) {
    return refused("", row, column, `it is longer than ${WORKBOOK_LIMITS.formulaLength} characters`);
  }
  try {
    const compiled = compileFormula(parseFormula(text, row, column), isArray);
    const { references, names, callsVane, makesReferences, isSubtotal } = compiled;
    return { compiled, fault: null, references, names, callsVane, makesReferences, isSubtotal };
  } catch (thrown) {
    if (thrown instanceof FormulaFault) return refused(text, row, column, thrown.message);
    if (thrown instanceof RangeError) {
      return refused(text, row, column, `it has more than ${CALCULATION_LIMITS.depth} brackets within brackets`);
    }
    throw thrown;
  }
}
