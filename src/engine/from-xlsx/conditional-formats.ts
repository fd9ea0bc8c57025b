import { type CellLook, type ConditionalRule, formatRange } from "../../xlsx/index.js";
import { COMPARISONS } from "./comparisons.js";
import { engineStyle } from "./engine-look.js";
import { formulaOperand, type RulePlace, ruleFormula, ruleId } from "./formula-operand.js";
import type { FormulaSpeller } from "./formula-speller.js";

/** A conditional format in the engine's own form. */
interface EngineRule {
  readonly id: string;
  readonly ranges: readonly string[];
  readonly stopIfTrue?: true;
  readonly rule: object;
}

const TEXT_OPERATORS: Readonly<Record<string, string>> = {
  containsText: "containsText",
  notContainsText: "notContainsText",
  beginsWith: "beginsWithText",
  endsWith: "endsWithText",
};

const PLAIN_OPERATORS: Readonly<Record<string, string>> = {
  containsBlanks: "isEmpty",
  notContainsBlanks: "isNotEmpty",
  duplicateValues: "duplicateValues",
  uniqueValues: "uniqueValues",
};

const THRESHOLDS: Readonly<Record<string, string>> = {
  min: "value",
  max: "value",
  num: "number",
  percent: "percentage",
  percentile: "percentile",
  formula: "formula",
};

/** Returns the conditional formats of a sheet that the engine has the kind of, the one that wins first. */
export function conditionalFormats(
  rules: readonly ConditionalRule[],
  sheet: string,
  looks: readonly CellLook[],
  speller: FormulaSpeller,
): readonly EngineRule[] {
  return rules.flatMap((rule, index) => {
    const [from] = rule.ranges;
    if (from === undefined) return [];
    return rule.ranges.flatMap((range) => {
      const kind = ruleKind(rule, { sheet, range, from }, looks, speller);
      const stop = rule.stopsOthers ? { stopIfTrue: true as const } : {};
      const id = ruleId("rule", index, range);
      return kind === undefined ? [] : [{ id, ranges: [formatRange(range)], ...stop, rule: kind }];
    });
  });
}

function ruleKind(
  rule: ConditionalRule,
  place: RulePlace,
  looks: readonly CellLook[],
  speller: FormulaSpeller,
): object | undefined {
  if (rule.type === "colorScale") return colorScale(rule);
  if (rule.type === "dataBar") return { type: "DataBarRule", color: colorNumber(rule.colors[0]) };
  const look = rule.look === undefined ? undefined : looks[rule.look];
  const test = look === undefined ? undefined : ruleTest(rule, place, speller);
  return look === undefined || test === undefined
    ? undefined
    : { type: "CellIsRule", ...test, style: engineStyle(look) };
}

/** A rule that the engine lacks is asked by the formula that the file keeps beside it. */
function ruleTest(rule: ConditionalRule, place: RulePlace, speller: FormulaSpeller): object | undefined {
  const { type, formulas, text, rank, isPercent, isBottom } = rule;
  const textOperator = TEXT_OPERATORS[type];
  if (textOperator !== undefined) return { operator: textOperator, values: [text] };
  const plainOperator = PLAIN_OPERATORS[type];
  if (plainOperator !== undefined) return { operator: plainOperator, values: [] };
  if (type === "top10") return { operator: "top10", values: [String(rank)], isPercent, isBottom };
  if (type === "cellIs") {
    const operator = COMPARISONS[rule.operator];
    const values = formulas.map((formula) => formulaOperand(formula, place, speller));
    return operator === undefined || values.includes(undefined) ? undefined : { operator, values };
  }
  const formula = formulas[0] === undefined ? undefined : ruleFormula(formulas[0], place, speller);
  return formula === undefined ? undefined : { operator: "customFormula", values: [formula] };
}

function colorNumber(color = "FFFFFF"): number {
  return Number.parseInt(color, 16);
}

function colorScale({ thresholds, colors }: ConditionalRule): object | undefined {
  const steps = thresholds.map(({ type, value }, index) => ({
    type: THRESHOLDS[type] ?? "value",
    color: colorNumber(colors[index]),
    value,
  }));
  const [minimum, second, third] = steps;
  if (minimum === undefined || second === undefined) return undefined;
  return third === undefined
    ? { type: "ColorScaleRule", minimum, maximum: second }
    : { type: "ColorScaleRule", minimum, midpoint: second, maximum: third };
}
