import { type CellRange, formatRange, moveFormula } from "../../xlsx/index.js";
import type { FormulaSpeller } from "./formula-speller.js";

/** A rule's formula as it reads from the first cell of one of the rule's ranges. */
export interface RulePlace {
  readonly sheet: string;
  readonly range: CellRange;
  /** The first of the rule's ranges, from whose first cell the file spells the formula. */
  readonly from: CellRange;
}

/**
 * Returns what a rule compares with, as the engine's rules hold it: a number or a text as it is, everything else as a
 * formula; undefined when the engine cannot calculate it.
 */
export function formulaOperand(text: string, place: RulePlace, speller: FormulaSpeller): string | undefined {
  if (/^[+-]?\d+(?:\.\d+)?(?:E[+-]?\d+)?$/i.test(text)) return text;
  const quoted = /^"((?:[^"]|"")*)"$/.exec(text);
  if (quoted !== null) return (quoted[1] ?? "").replaceAll('""', '"');
  return ruleFormula(text, place, speller);
}

/** Returns a rule's formula as the engine reads it, seen from the first cell of the range. */
export function ruleFormula(
  text: string,
  { sheet, range, from }: RulePlace,
  speller: FormulaSpeller,
): string | undefined {
  const moved = moveFormula(text, range.firstRow - from.firstRow, range.firstColumn - from.firstColumn);
  const spelled = speller.spell(moved, sheet, range.firstRow, range.firstColumn);
  return "content" in spelled ? spelled.content : undefined;
}

/** Names a rule by its place, so that the same file gives the same data. */
export function ruleId(kind: string, index: number, range: CellRange): string {
  return `${kind}-${index + 1}-${formatRange(range)}`;
}
