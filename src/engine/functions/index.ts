import type { FunctionSpec } from "../formula/function-spec.js";
import { ARITHMETIC } from "./arithmetic.js";
import { ARRAYS } from "./arrays.js";
import { BASE_NUMBERS } from "./bases.js";
import { COMPLEX } from "./complex.js";
import { CONDITIONAL } from "./conditional.js";
import { CONVERT } from "./convert.js";
import { DATABASE } from "./database.js";
import { DATES } from "./dates.js";
import { DISTRIBUTIONS } from "./distributions.js";
import { FINANCE } from "./finance.js";
import { INFORMATION } from "./information.js";
import { LAMBDA, LAMBDA_SPECIAL } from "./lambda.js";
import { LOGIC, LOGIC_SPECIAL } from "./logic.js";
import { LOOKUP } from "./lookup.js";
import { MATRICES } from "./matrices.js";
import { NUMBER_FORMAT } from "./number-format.js";
import { RANKING } from "./ranking.js";
import { REFERENCES } from "./references.js";
import { REGRESSION } from "./regression.js";
import { ROUNDING } from "./rounding.js";
import { STATISTICS } from "./statistics.js";
import { SUBTOTALS } from "./subtotals.js";
import { SUMS } from "./sums.js";
import { TEXT } from "./text.js";
import { TEXT_SPLIT } from "./text-split.js";
import { TRIGONOMETRY } from "./trigonometry.js";
import { VANE } from "./vane.js";
import { WORKDAYS } from "./workdays.js";

/** The functions of a spreadsheet program that are calculated here, by kind. */
export const FUNCTION_GROUPS: Readonly<Record<string, readonly FunctionSpec[]>> = {
  "Sums and arithmetic": [...SUMS, ...ARITHMETIC, ...ROUNDING, ...TRIGONOMETRY, ...SUBTOTALS, ...MATRICES],
  Conditions: [...LOGIC_SPECIAL, ...LOGIC, ...CONDITIONAL, ...DATABASE],
  "Look-ups and references": [...LOOKUP, ...REFERENCES],
  Blocks: [...ARRAYS, ...LAMBDA_SPECIAL, ...LAMBDA],
  Statistics: [...STATISTICS, ...RANKING, ...REGRESSION, ...DISTRIBUTIONS],
  Text: [...TEXT, ...TEXT_SPLIT, ...NUMBER_FORMAT],
  "Dates and times": [...DATES, ...WORKDAYS],
  Money: FINANCE,
  Engineering: [...BASE_NUMBERS, ...COMPLEX, ...CONVERT],
  "What a cell holds": INFORMATION,
};

const byName: ReadonlyMap<string, FunctionSpec> = new Map(
  [...Object.values(FUNCTION_GROUPS).flat(), ...VANE].map((spec) => [spec.name, spec]),
);

/** Returns a function by its name in capitals, as typed. */
export function functionNamed(name: string): FunctionSpec | undefined {
  return byName.get(name);
}
