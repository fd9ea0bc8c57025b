import { type DataValidation, formatAddress, formatRange, parseRange } from "../../xlsx/index.js";
import { COMPARISONS } from "./comparisons.js";
import { formulaOperand, type RulePlace, ruleFormula, ruleId } from "./formula-operand.js";
import type { FormulaSpeller } from "./formula-speller.js";

/** A rule on what may be typed, in the engine's own form. */
interface EngineValidation {
  readonly id: string;
  readonly ranges: readonly string[];
  readonly isBlocking: boolean;
  readonly criterion: Criterion;
}

/** What a rule says to the person, by the rule's id. */
export type EntryWords = Readonly<Record<string, Pick<DataValidation, "prompt" | "refusal">>>;

/** Rules on numbers. */
const NUMBERS = new Set(["decimal", "whole", "date", "time"]);
/** A list opens by an arrow in the cell. */
const ARROW = { displayStyle: "arrow" } as const;

/** How a comparison of a text's length reads as a formula; A and B are the rule's two operands. */
const LENGTHS: Readonly<Record<string, string>> = {
  between: "AND(v>=A,v<=B)",
  notBetween: "OR(v<A,v>B)",
  equal: "v=A",
  notEqual: "v<>A",
  greaterThan: "v>A",
  greaterThanOrEqual: "v>=A",
  lessThan: "v<A",
  lessThanOrEqual: "v<=A",
};

/**
 * Returns the rules of a sheet that the engine can keep. A rule that only informs lets every entry stand; one that reads
 * the cell itself is asked when the entry stands already, so that it marks the entry and does not refuse it.
 */
export function engineValidations(
  validations: readonly DataValidation[],
  sheet: string,
  speller: FormulaSpeller,
): readonly EngineValidation[] {
  return validations.flatMap((validation, index) => {
    const [from] = validation.ranges;
    if (from === undefined || validation.severity === "information") return [];
    return validation.ranges.flatMap((range) => {
      const criterion = criterionOf(validation, { sheet, range, from }, speller);
      if (criterion === undefined) return [];
      const isBlocking = validation.severity === "stop" && criterion.type !== "customFormula";
      return [{ id: ruleId("entry", index, range), ranges: [formatRange(range)], isBlocking, criterion }];
    });
  });
}

interface Criterion {
  readonly type: string;
  readonly values: readonly string[];
}

function criterionOf(validation: DataValidation, place: RulePlace, speller: FormulaSpeller): Criterion | undefined {
  const { type, operator, formula1, formula2 } = validation;
  if (type === "list") return listOf(formula1, place, speller);
  if (type === "custom" || type === "textLength") {
    const cell = formatAddress(place.range.firstRow, place.range.firstColumn);
    const condition = type === "custom" ? formula1 : lengthCondition(validation, cell);
    const formula = condition === undefined ? undefined : ruleFormula(condition, place, speller);
    return formula === undefined ? undefined : { type: "customFormula", values: [formula] };
  }
  const comparison = COMPARISONS[operator];
  const operands = /between/i.test(operator) ? [formula1, formula2] : [formula1];
  const values = operands.map((operand) => formulaOperand(operand, place, speller));
  const isKnown =
    comparison !== undefined && NUMBERS.has(type) && values.every((value) => value !== undefined && value !== "");
  return isKnown ? { type: comparison, values: values as string[] } : undefined;
}

function listOf(formula: string, place: RulePlace, speller: FormulaSpeller): Criterion | undefined {
  const quoted = /^"((?:[^"]|"")*)"$/.exec(formula);
  if (quoted !== null) {
    const values = (quoted[1] ?? "").replaceAll('""', '"').split(",");
    return { type: "isValueInList", values: values.map((value) => value.trim()), ...ARROW };
  }
  const spelled = ruleFormula(formula, place, speller)?.slice(1);
  const named =
    spelled === undefined ? undefined : (speller.names.ranges[spelled] ?? spelled).replace(/^\((.*)\)$/, "$1");
  const range = named?.slice(named.lastIndexOf("!") + 1);
  if (named === undefined || range === undefined || parseRange(range) === undefined) return undefined;
  return { type: "isValueInRange", values: [named], ...ARROW };
}

/** Spells a rule on a text's length as a formula over the cell that is typed in. */
function lengthCondition({ operator, formula1, formula2 }: DataValidation, cell: string): string | undefined {
  const operands: Readonly<Record<string, string>> = { v: `LEN(${cell})`, A: `(${formula1})`, B: `(${formula2})` };
  return LENGTHS[operator]?.replace(/\b[vAB]\b/g, (letter) => operands[letter] ?? letter);
}

/** Returns what the rules of a sheet say to the person: before an entry, and about one that breaks the rule. */
export function entryWords(validations: readonly DataValidation[]): EntryWords {
  return Object.fromEntries(
    validations.flatMap(({ ranges, prompt, refusal }, index) =>
      ranges.map((range) => [ruleId("entry", index, range), { prompt, refusal }]),
    ),
  );
}
