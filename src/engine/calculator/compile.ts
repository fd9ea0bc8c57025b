import { CompiledFormula } from "@odoo/o-spreadsheet";
import { type Reference, readReference } from "../../xlsx/index.js";
import { engineSpelling } from "../engine-spelling.js";
import type { EngineCell } from "../exchange.js";
import { CALCULATION_LIMITS } from "./calculation-limits.js";
import { namesIn, referencesIn } from "./references-in.js";

/** A formula made ready, for every cell in which it reads the same. */
export interface Prepared {
  readonly references: readonly Reference[];
  /** Names in it: functions, and defined names. */
  readonly symbols: readonly string[];
  readonly callsVane: boolean;
  /** Whether it makes references out of text, so that nobody knows what it reads. */
  readonly readsAnywhere: boolean;
  readonly needsPosition: boolean;
  /** Whether it is a subtotal itself, which another subtotal leaves out. */
  readonly isSubtotal: boolean;
  /** Why it cannot be calculated here; null when it can. */
  readonly fault: string | null;
  /** Calculates it where its references, by their place in the list, mean the cells that are handed in. */
  execute(
    cellOf: (reference: number) => EngineCell,
    blockOf: (reference: number) => EngineCell[][],
    nameOf: (name: string, wantsBlock: boolean) => unknown,
    context: object,
  ): unknown;
}

const VANE_CALL = /\bVANE\./i;

/** Functions that ask where their argument stands, and so need each cell's position beside its value. */
const ASKS_FOR_POSITION = new Set(["ROW", "COLUMN", "SUBTOTAL"]);

/**
 * Functions that ask a whole workbook (other cells' formulas, pivot tables, references made of text), and
 * HYPERLINK, which the library gives as the text of its own links.
 */
const NOT_CALCULATED = /^(?:CELL|FORMULATEXT|HYPERLINK|INDIRECT|ISFORMULA|OFFSET|PIVOT.*)$/;

/** Of these, the ones that may read any cell. */
const MAKES_REFERENCES = /\b(?:INDIRECT|OFFSET)\s*\(/i;

/** What a subtotal leaves out, so that nothing is counted twice; AGGREGATE, which came later, as LibreOffice has it. */
const SUBTOTALS = /\b(?:SUBTOTAL|AGGREGATE)\s*\(/i;

/** What the library asks of a workbook while it compiles: where a reference points. We only keep its text. */
const KEEP_TEXT = { getRangeFromSheetXC: (_sheet: string, text: string) => text };

/** A formula that keeps its stored value. What it reads still has to be known: its value may be out of date. */
function refused(formula: string, row: number, column: number, fault: string): Prepared {
  return {
    references: referencesIn(formula).flatMap((text) => readReference(text, row, column) ?? []),
    symbols: namesIn(formula),
    callsVane: VANE_CALL.test(formula),
    readsAnywhere: MAKES_REFERENCES.test(withoutTexts(formula)),
    needsPosition: false,
    isSubtotal: SUBTOTALS.test(withoutTexts(formula)),
    fault,
    execute: () => undefined,
  };
}

/** Operators, and the brackets of calls. */
const OPERATIONS = /[-+*/^&=<>(]/g;

function withoutTexts(formula: string): string {
  return formula.replace(/"(?:[^"]|"")*"/g, '""');
}

/** Makes a formula ready as it stands in one cell. */
export function prepare(text: string, row: number, column: number): Prepared {
  const spelled = engineSpelling(`=${text}`);
  const bare = withoutTexts(spelled);
  if (/[[\]]/.test(bare)) return refused(spelled, row, column, "it names a table or another workbook");
  // The library takes seconds to compile a formula of thousands, one within the other.
  if ((bare.match(OPERATIONS)?.length ?? 0) > CALCULATION_LIMITS.operations) {
    return refused(spelled, row, column, `it has more than ${CALCULATION_LIMITS.operations} operations and calls`);
  }
  const compiled = CompiledFormula.Compile(spelled, "", KEEP_TEXT as never);
  if (compiled.isBadExpression)
    return refused(spelled, row, column, "it has a function or spelling that is not known here");
  const notCalculated = compiled.symbols.find((symbol) => NOT_CALCULATED.test(symbol.toUpperCase()));
  if (notCalculated !== undefined) return refused(spelled, row, column, `${notCalculated} is not calculated here`);
  const references: Reference[] = [];
  for (const reference of compiled.rangeDependencies as unknown as readonly string[]) {
    const read = readReference(reference, row, column);
    if (read === undefined) return refused(spelled, row, column, "it refers to cells that are no longer there");
    references.push(read);
  }
  const indexes = references.map((_, index) => index);
  return {
    references,
    symbols: compiled.symbols,
    callsVane: VANE_CALL.test(spelled),
    readsAnywhere: false,
    isSubtotal: SUBTOTALS.test(withoutTexts(spelled)),
    needsPosition: compiled.symbols.some((symbol) => ASKS_FOR_POSITION.has(symbol.toUpperCase())),
    fault: null,
    execute: (cellOf, blockOf, nameOf, context) =>
      compiled.execute.call(
        compiled,
        indexes as never,
        cellOf as never,
        blockOf as never,
        nameOf as never,
        context as never,
      ),
  };
}
