import { allCalls, allTexts, type Operand, type ParsedArgument, type ParsedCall } from "../formulas/parse-formula.js";
import { placesOf } from "../formulas/roles.js";
import {
  argumentOf,
  blockOf,
  isOneCell,
  type PlacedCall,
  type PlacedFormula,
  spellBlock,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";
import { cellKey, factorCellKeys, ownFactorKeys } from "../support/factor-cells.js";

/** How many formulas back an area is followed to where it was reduced. */
const DEPTH = 6;

/** Functions whose result is a free area, or an airflow through one. */
const REDUCES = new Set(["OPENING.FREE", "AIRFLOW.FACE"]);

/** Functions that apply a factor to an area that they are given. */
const APPLIES_TO_AREA = new Set(["OPENING.FREE", "AIRFLOW.TARGET"]);

function factorOf(call: ParsedCall): ParsedArgument | undefined {
  const argument = call.arguments[placesOf(call.id, "factor")[0] ?? -1];
  return argument?.isOmitted === false ? argument : undefined;
}

/** Whether a call takes nothing off: its factor is 1. */
function isOpen(index: WorkbookIndex, call: ParsedCall, formula: PlacedFormula): boolean {
  const factor = factorOf(call);
  if (factor?.literal === 1) return true;
  const block = blockOf(index, factor, formula);
  return (
    block !== undefined &&
    isOneCell(block) &&
    index.valueAt(block.sheet, block.range.firstRow, block.range.firstColumn) === 1
  );
}

/** Formulas in the cells that an operand names, for a column the first one. */
function formulaBehind(index: WorkbookIndex, operand: Operand, formula: PlacedFormula): PlacedFormula | undefined {
  const block = index.resolve(operand, formula);
  return block && index.formulaAt(block.sheet, block.range.firstRow, block.range.firstColumn);
}

/** What a formula's own arithmetic and calls take an area from. */
function areaSources(index: WorkbookIndex, formula: PlacedFormula): readonly Operand[] {
  const parsed = index.parsed(formula);
  const areas = allCalls(parsed).flatMap((call) =>
    placesOf(call.id, "area").flatMap((place) => call.arguments[place]?.only ?? []),
  );
  return [...areas, ...parsed.multiplied, ...(parsed.operands.length === 1 ? parsed.operands : [])];
}

/**
 * Whether the result of a formula is already reduced by a factor.
 *
 * @param factor - The factor's cell, as `cellKey` spells it; null for any factor
 */
function isReduced(
  index: WorkbookIndex,
  formula: PlacedFormula,
  factor: string | null,
  factors: ReadonlySet<string>,
  depth: number,
): boolean {
  const parsed = index.parsed(formula);
  const isThis = (key: string) => (factor === null ? factors.has(key) : key === factor);
  const byCall = allCalls(parsed).some((call) => {
    if (!REDUCES.has(call.id) || isOpen(index, call, formula)) return false;
    if (factor === null) return call.id === "OPENING.FREE";
    const block = blockOf(index, factorOf(call), formula);
    return block !== undefined && cellKey(block) === factor;
  });
  if (byCall) return true;
  const keys = parsed.multiplied.flatMap((operand) => {
    const block = index.resolve(operand, formula);
    return block === undefined ? [] : [cellKey(block)];
  });
  if (keys.some(isThis) || ownFactorKeys(index, formula).some(isThis)) return true;
  if (depth === 0) return false;
  return areaSources(index, formula).some((operand) => {
    const behind = formulaBehind(index, operand, formula);
    return behind !== undefined && isReduced(index, behind, factor, factors, depth - 1);
  });
}

function draft(formula: PlacedFormula, problem: string, action: string): Draft {
  const place = { sheet: formula.sheet, range: oneCell(formula.row, formula.column) };
  return { kind: "factor-used-twice", severity: "error", ...place, problem, action };
}

/** A free area handed to a function that applies a factor to it once more. */
function inCall(index: WorkbookIndex, call: PlacedCall, factors: ReadonlySet<string>): readonly Draft[] {
  const { formula } = call;
  if (!APPLIES_TO_AREA.has(call.call.id) || isOpen(index, call.call, formula)) return [];
  const area = argumentOf(call, "area");
  if (area === undefined) return [];
  const isFreeInside = allCalls(area).some((inner) => inner.id === "OPENING.FREE" && !isOpen(index, inner, formula));
  const behind = area.only && formulaBehind(index, area.only, formula);
  if (!isFreeInside && !(behind && isReduced(index, behind, null, factors, DEPTH))) return [];
  const block = blockOf(index, area, formula);
  const which =
    block === undefined ? "The area in this formula" : `The area ${spellBlock(index, block, formula.sheet)}`;
  const action = `Give VANE.${call.call.id} the whole area, or its free area with the factor 1.`;
  return [
    draft(formula, `${which} is already reduced by a factor, and VANE.${call.call.id} applies one again.`, action),
  ];
}

/** Arithmetic that multiplies by a factor what was reduced by the same factor before. */
function inArithmetic(index: WorkbookIndex, formula: PlacedFormula, factors: ReadonlySet<string>): readonly Draft[] {
  if (!formula.text.includes("*")) return [];
  for (const text of allTexts(index.parsed(formula))) {
    for (const operand of text.multiplied) {
      const block = index.resolve(operand, formula);
      if (block === undefined || !isOneCell(block) || !factors.has(cellKey(block))) continue;
      if (index.valueAt(block.sheet, block.range.firstRow, block.range.firstColumn) === 1) continue;
      const key = cellKey(block);
      const isInside = text.multipliedCalls.some((call) => {
        const given = blockOf(index, factorOf(call), formula);
        return REDUCES.has(call.id) && given !== undefined && cellKey(given) === key;
      });
      const isBehind = text.multiplied.some((other) => {
        const behind = formulaBehind(index, other, formula);
        return behind !== undefined && isReduced(index, behind, key, factors, DEPTH);
      });
      if (!isInside && !isBehind) continue;
      const cell = spellBlock(index, block, formula.sheet);
      const problem = `The formula multiplies by the factor ${cell} what was already reduced by it.`;
      return [draft(formula, problem, `Take the factor ${cell} out of this formula.`)];
    }
  }
  return [];
}

/** Free-area factors that are applied twice. */
export function checkFactorTwice(index: WorkbookIndex): readonly Draft[] {
  const factors = factorCellKeys(index);
  return [
    ...index.calls.flatMap((call) => inCall(index, call, factors)),
    ...(factors.size === 0 ? [] : index.formulas.flatMap((formula) => inArithmetic(index, formula, factors))),
  ];
}
