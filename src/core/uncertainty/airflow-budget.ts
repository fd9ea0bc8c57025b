import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { requireAtLeast } from "../check/require.js";
import type { Percent } from "../units/quantity.js";
import { standardFromExpanded } from "./standard-from-expanded.js";
import { standardFromLimits } from "./standard-from-limits.js";
import { type BudgetPart, type UncertaintyBudget, uncertaintyBudget } from "./uncertainty-budget.js";

/** What is known about each input of area times factor times velocity. */
export interface AirflowDoubt {
  /** The ± of the reading as the data sheet or certificate allows it: limits. */
  readonly instrumentPercent: Percent | "assumed";
  /** The ± of a published factor, "assumed" for a factor that nobody published, "none" where the area is all free. */
  readonly factorPercent: Percent | "assumed" | "none";
  /** The ± of the area: limits. */
  readonly areaPercent: Percent | "assumed";
  /** Relative standard uncertainty of the mean of repeated sweeps, "assumed" where nobody repeated. */
  readonly repeatPercent: Percent | "assumed";
  /** Repeats less one; Infinity where the repeat figure was not found from repeats. */
  readonly repeatDegreesOfFreedom: number;
}

/** A budget whose rows know what was assumed, with a sentence that says what rules it. */
export interface AirflowBudget extends UncertaintyBudget {
  /** Names of the parts for which a default stands. */
  readonly assumed: readonly string[];
  /** The ± and the part that rules it, in words. */
  readonly summary: string;
}

/** From this share of the variance on, bettering any other part hardly helps. */
const DOMINANT_SHARE_PERCENT = 50;

/**
 * Returns the uncertainty budget of one airflow found from an area, a factor and a velocity.
 *
 * (u(Q) / Q)² = (u(A) / A)² + (u(F) / F)² + (u(V) / V)², U = k · u
 *
 * The velocity brings two parts, the instrument and how well a sweep repeats. The spread of the readings over the
 * face is no part of it: that is the profile. Not covered: a disturbed plane, a tilted probe, the wrong face.
 *
 * @param doubt - What is known about instrument, factor, area and repeat; "assumed" takes the default
 * @returns A row for each part, the ± at about 95 % and what rules it
 * @throws {DomainError} When a stated part is negative or its degrees of freedom are below 1
 * @source JCGM 100:2008 (GUM), 5.1.6; defaults: DOE/NREL SWS 6.6201.4, IMO MSC/Circ. 729, common practice
 * @example
 * airflowBudget({
 *   instrumentPercent: 8,
 *   factorPercent: "assumed",
 *   areaPercent: 2,
 *   repeatPercent: 2,
 *   repeatDegreesOfFreedom: Infinity,
 * }).expandedPercent // => 25.298
 */
export function airflowBudget(doubt: AirflowDoubt): AirflowBudget {
  const { instrument, assumedFactor, area, repeat } = UNCERTAINTY_DEFAULTS;
  const parts: BudgetPart[] = [
    limitsPart("Instrument", doubt.instrumentPercent, instrument.plusMinusPercent),
    limitsPart("Area", doubt.areaPercent, area.plusMinusPercent),
    repeatPart(doubt, repeat.plusMinusPercent),
  ];
  if (doubt.factorPercent !== "none") {
    parts.unshift(limitsPart("Factor", doubt.factorPercent, assumedFactor.plusMinusPercent));
  }
  const assumed = [
    doubt.factorPercent === "assumed" ? ["Factor"] : [],
    doubt.instrumentPercent === "assumed" ? ["Instrument"] : [],
    doubt.areaPercent === "assumed" ? ["Area"] : [],
    doubt.repeatPercent === "assumed" ? ["Repeat"] : [],
  ].flat();
  const budget = uncertaintyBudget(parts);
  return { ...budget, assumed, summary: summaryOf(budget, assumed) };
}

function limitsPart(name: string, stated: Percent | "assumed", assumedPercent: Percent): BudgetPart {
  const halfWidth = stated === "assumed" ? assumedPercent : stated;
  requireAtLeast(`${name.toLowerCase()}Percent`, halfWidth, 0);
  const standardPercent = standardFromLimits(halfWidth, "rectangular");
  return { name, standardPercent, exponent: 1, degreesOfFreedom: Number.POSITIVE_INFINITY };
}

function repeatPart(doubt: AirflowDoubt, assumedPercent: Percent): BudgetPart {
  if (doubt.repeatPercent === "assumed") {
    const standardPercent = standardFromExpanded(assumedPercent, 2);
    return { name: "Repeat", standardPercent, exponent: 1, degreesOfFreedom: Number.POSITIVE_INFINITY };
  }
  requireAtLeast("repeatPercent", doubt.repeatPercent, 0);
  return {
    name: "Repeat",
    standardPercent: doubt.repeatPercent,
    exponent: 1,
    degreesOfFreedom: doubt.repeatDegreesOfFreedom,
  };
}

function summaryOf(budget: UncertaintyBudget, assumed: readonly string[]): string {
  const largest = budget.rows.reduce((most, row) => (row.sharePercent > most.sharePercent ? row : most));
  const name = assumed.includes(largest.name) ? `assumed ${largest.name.toLowerCase()}` : largest.name.toLowerCase();
  const rules = largest.sharePercent >= DOMINANT_SHARE_PERCENT ? "dominates" : "is the largest part";
  const whole = `±${budget.expandedPercent.toFixed(1)} % at about 95 %`;
  if (budget.standardPercent === 0) return `${whole}: no part was given any doubt`;
  return `${whole}: the ${name} ${rules} (${largest.sharePercent.toFixed(0)} % of the variance)`;
}
