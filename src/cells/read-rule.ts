import type { DuctSection, TraverseRule } from "../core/index.js";
import { CellError, wrongInput } from "./cell-error.js";
import { asSingle, isGiven } from "./read-range.js";

/** What a person may ask for: where the points lie, and how many there are unless said otherwise. */
export interface AskedRule {
  readonly positions: TraverseRule;
  /** The usual number of points, or the least that the stack method asks for. */
  readonly count: "field" | "method 1";
  /** Whether no point may be nearer than 1 in to a wall, in a small duct either. */
  readonly isStrict?: true;
}

/** Rules as typed, in small letters and without spaces and hyphens. */
const RULES: Readonly<Record<string, AskedRule>> = {
  equalarea: { positions: "equal area", count: "field" },
  loglinear: { positions: "log-linear", count: "field" },
  logtchebycheff: { positions: "log-Tchebycheff", count: "field" },
  logchebyshev: { positions: "log-Tchebycheff", count: "field" },
  method1: { positions: "equal area", count: "method 1" },
  st18: { positions: "equal area", count: "field", isStrict: true },
};

/** The rule that errs least on a developed profile: log-linear in a round duct, log-Tchebycheff in a rectangular one. */
function defaultRule(section: DuctSection): AskedRule {
  return { positions: section.shape === "round" ? "log-linear" : "log-Tchebycheff", count: "field" };
}

/**
 * Reads the argument `rule`; the shape's own where it is omitted or blank.
 *
 * @throws {CellError} `#VALUE!` when nobody knows the rule
 */
export function readRule(value: unknown, section: DuctSection): AskedRule {
  const single = asSingle(value);
  if (!isGiven(single)) return defaultRule(section);
  if (single instanceof CellError)
    throw new CellError(single.code, `rule is in error: ${single.message || single.code}`);
  const key = String(single).toLowerCase().replace(/[\s-]/g, "");
  const rule = Object.hasOwn(RULES, key) ? RULES[key] : undefined;
  if (rule !== undefined) return rule;
  throw wrongInput('rule must be "equal area", "log-linear", "log-Tchebycheff", "Method 1" or "ST-18".');
}
