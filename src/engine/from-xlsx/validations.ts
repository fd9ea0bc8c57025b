import { type DataValidation, formatAddress, formatRange, parseRange } from "../../workbook/xlsx/index.js";
import { type RulePlace, ruleFormula, ruleId } from "./formula-operand.js";
import type { FormulaSpeller } from "./formula-speller.js";

/** A rule on what may be typed, in the engine's own form. */
interface EngineValidation {
  readonly id: string;
  readonly ranges: readonly string[];
  readonly isBlocking: boolean;
  readonly criterion: object;
}

/** What a rule says to the person, by the rule's id. */
export type EntryWords = Readonly<Record<string, Pick<DataValidation, "prompt" | "refusal">>>;

/** How each comparison reads; A and B are the rule's two formulas, v what was typed. */
const COMPARISONS: Readonly<Record<string, string>> = {
  between: "AND(v>=A,v<=B)",
  notBetween: "OR(v<A,v>B)",
  equal: "v=A",
  notEqual: "v<>A",
  greaterThan: "v>A",
  greaterThanOrEqual: "v>=A",
  lessThan: "v<A",
  lessThanOrEqual: "v<=A",
};

/** Returns the rules of a sheet that the engine can keep. A rule that only informs lets every entry stand. */
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
      const isBlocking = validation.severity === "stop";
      return [{ id: ruleId("entry", index, range), ranges: [formatRange(range)], isBlocking, criterion }];
    });
  });
}

function criterionOf(validation: DataValidation, place: RulePlace, speller: FormulaSpeller): object | undefined {
  const { type, formula1 } = validation;
  if (type === "list") return listOf(formula1, place, speller);
  const condition = conditionOf(validation, formatAddress(place.range.firstRow, place.range.firstColumn));
  const formula = condition === undefined ? undefined : ruleFormula(condition, place, speller);
  return formula === undefined ? undefined : { type: "customFormula", values: [formula] };
}

function listOf(formula: string, place: RulePlace, speller: FormulaSpeller): object | undefined {
  const quoted = /^"((?:[^"]|"")*)"$/.exec(formula);
  if (quoted !== null) {
    const values = (quoted[1] ?? "").replaceAll('""', '"').split(",");
    return { type: "isValueInList", values: values.map((value) => value.trim()), displayStyle: "arrow" };
  }
  const spelled = ruleFormula(formula, place, speller)?.slice(1);
  const named =
    spelled === undefined ? undefined : (speller.names.ranges[spelled] ?? spelled).replace(/^\((.*)\)$/, "$1");
  const range = named?.slice(named.lastIndexOf("!") + 1);
  if (named === undefined || range === undefined || parseRange(range) === undefined) return undefined;
  return { type: "isValueInRange", values: [named], displayStyle: "arrow" };
}

/** Spells a rule as one formula over the cell that is typed in. */
function conditionOf({ type, operator, formula1, formula2 }: DataValidation, cell: string): string | undefined {
  if (type === "custom") return formula1;
  const comparison = COMPARISONS[operator];
  if (comparison === undefined || formula1 === "") return undefined;
  const measured = type === "textLength" ? `LEN(${cell})` : cell;
  const operands: Readonly<Record<string, string>> = { v: measured, A: `(${formula1})`, B: `(${formula2})` };
  const test = comparison.replace(/\b[vAB]\b/g, (letter) => operands[letter] ?? letter);
  switch (type) {
    case "textLength":
      return test;
    case "whole":
      return `AND(ISNUMBER(${cell}),INT(N(${cell}))=${cell},${test})`;
    case "decimal":
    case "date":
    case "time":
      return `AND(ISNUMBER(${cell}),${test})`;
    default:
      return undefined;
  }
}

/** Returns what the rules of a sheet say to the person: before an entry, and about one that breaks the rule. */
export function entryWords(validations: readonly DataValidation[]): EntryWords {
  return Object.fromEntries(
    validations.flatMap(({ ranges, prompt, refusal }, index) =>
      ranges.map((range) => [ruleId("entry", index, range), { prompt, refusal }]),
    ),
  );
}
