import { DomainError } from "../check/domain-error.js";
import { requireAtLeast, requireFinite, requireFiniteResult, requireSome } from "../check/require.js";
import type { Percent } from "../units/quantity.js";
import { combineUncertainties } from "./combine-uncertainties.js";
import { coverageFactor } from "./coverage-factor.js";

/** One input of a product or quotient. */
export interface BudgetPart {
  /** What it is called in the table. */
  readonly name: string;
  /** Relative standard uncertainty of the input. */
  readonly standardPercent: Percent;
  /** Power of the input in the result: 1 in a product, −1 below the line, ½ under a root, 2 for a diameter. */
  readonly exponent: number;
  /** Repeats less one; Infinity for limits taken as certain. */
  readonly degreesOfFreedom: number;
}

/** One row of the table. */
export interface BudgetRow {
  readonly name: string;
  /** What the part does to the result: exponent times its relative standard uncertainty. */
  readonly contributionPercent: Percent;
  /** Its share of the variance; the rows add up to 100. */
  readonly sharePercent: Percent;
}

/** The table, and what it comes to. */
export interface UncertaintyBudget {
  readonly rows: readonly BudgetRow[];
  /** Relative standard uncertainty of the result. */
  readonly standardPercent: Percent;
  /** The ± over the standard uncertainty. */
  readonly coverageFactor: number;
  /** Relative ± of the result (95 %). */
  readonly expandedPercent: Percent;
}

/**
 * Returns the uncertainty budget of a product or quotient of independent inputs.
 *
 * (u(y) / y)² = Σ(pᵢ · u(xᵢ) / xᵢ)², U² = Σ(kᵢ · pᵢ · u(xᵢ))², with kᵢ for the degrees of freedom of each part
 *
 * Each part is widened by how few repeats it rests on before they are added up. One factor for all of them, found from
 * common degrees of freedom, covers 88 % where two sweeps rule: a scatter that comes out small by chance raises them.
 *
 * @param parts - Inputs of the product, each with its relative standard uncertainty, power and degrees of freedom,
 *   at least one
 * @returns A row for each input with how much of the doubt it causes, and the combined and expanded uncertainty, in percent
 * @throws {DomainError} When there is no part, an uncertainty is negative or a power is not finite
 * @source JCGM 100:2008 (GUM), 5.1.6, 6.2 and G.4
 * @example
 * uncertaintyBudget([
 *   { name: "Area", standardPercent: 2, exponent: 1, degreesOfFreedom: Infinity },
 *   { name: "Factor", standardPercent: 10, exponent: 1, degreesOfFreedom: Infinity },
 *   { name: "Velocity", standardPercent: 6, exponent: 1, degreesOfFreedom: Infinity },
 * ]).expandedPercent // => 23.664
 */
export function uncertaintyBudget(parts: readonly BudgetPart[]): UncertaintyBudget {
  requireSome("parts", parts);
  const contributions = parts.map(contributionOf);
  const standardPercent = combineUncertainties(contributions);
  const widened = parts.map((part, i) =>
    requireFiniteResult("uncertaintyBudget", coverageFactor(part.degreesOfFreedom) * (contributions[i] ?? 0)),
  );
  const expandedPercent = combineUncertainties(widened);
  const rows = parts.map((part, i) => {
    const contributionPercent = contributions[i] ?? 0;
    const share = standardPercent === 0 ? 0 : (contributionPercent / standardPercent) ** 2;
    return { name: part.name, contributionPercent, sharePercent: 100 * share };
  });
  const factor = standardPercent === 0 ? coverageFactor(Number.POSITIVE_INFINITY) : expandedPercent / standardPercent;
  return { rows, standardPercent, coverageFactor: factor, expandedPercent };
}

function contributionOf(part: BudgetPart): Percent {
  if (part.name === "") throw new DomainError("name", "the name of the part", "empty");
  requireAtLeast("standardPercent", part.standardPercent, 0);
  requireFinite("exponent", part.exponent);
  return requireFiniteResult("uncertaintyBudget", Math.abs(part.exponent) * part.standardPercent);
}
