import { UNCERTAINTY_DEFAULTS } from "../../../shared/tables/uncertainty-defaults.js";
import { requireAtLeast } from "../check/require.js";
import type { Count, Percent } from "../units/quantity.js";
import { pointsUncertainty } from "./points-uncertainty.js";
import { standardFromLimits } from "./standard-from-limits.js";
import { type BudgetPart, type UncertaintyBudget, uncertaintyBudget } from "./uncertainty-budget.js";

/** A figure in percent, or "assumed" where nobody stated it and a default stands. */
type Stated = Percent | "assumed";

/** What is known about each input of area times factor times velocity. */
export interface AirflowDoubt {
  /** The ± of the reading as the data sheet or certificate allows it: limits. Of a pressure, as `gaugeLimits` has it. */
  readonly instrumentPercent: Stated;
  /** The ± of a published factor, "assumed" for a factor that nobody published, "none" where the area is all free. */
  readonly factorPercent: Stated | "none";
  /** The ± of the area: limits. */
  readonly areaPercent: Stated;
  /** Relative standard uncertainty of the mean of repeated sweeps, "assumed" where nobody repeated. */
  readonly repeatPercent: Stated;
  /** Repeats less one; Infinity where the repeat figure was not found from repeats. */
  readonly repeatDegreesOfFreedom: number;
  /** Points that were read and how much they differ; null for sweeps, whose path covers the opening. */
  readonly points: { readonly pointCount: Count; readonly spreadPercent: Percent } | null;
  /** For a velocity from pressures: the ± of density and of the tube's coefficient, limits; null otherwise. */
  readonly pitot: { readonly densityPercent: Stated; readonly coefficientPercent: Stated } | null;
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
 * (u(Q) / Q)² = (u(A) / A)² + (u(F) / F)² + (u(V) / V)², U² = Σ(kᵢ · uᵢ)²; of pressures u(V) holds (u(ρ) / 2ρ)² and the tube's
 *
 * The velocity brings the instrument, how well a sweep repeats, and how few points were read. Not covered: a
 * disturbed traverse location, a tilted probe, the wrong opening.
 *
 * @param doubt - What is known about instrument, factor, area, repeat, points and Pitot tube; "assumed" takes the default
 * @returns A row for each part, the ± (95 %) and what rules it
 * @throws {DomainError} When a stated part is negative, its degrees of freedom are below 1 or the ± is beyond numbers
 * @source JCGM 100:2008 (GUM), 5.1.6; defaults: DOE/NREL SWS 6.6201.4, IMO MSC/Circ. 729, common practice
 * @example
 * airflowBudget({
 *   instrumentPercent: 8,
 *   factorPercent: "assumed",
 *   areaPercent: 2,
 *   repeatPercent: 2,
 *   repeatDegreesOfFreedom: 9,
 *   points: null,
 *   pitot: null,
 * }).expandedPercent // => 25.407
 */
export function airflowBudget(doubt: AirflowDoubt): AirflowBudget {
  const { instrument, assumedFactor, area, density, pitot } = UNCERTAINTY_DEFAULTS;
  const assumed: string[] = [];
  const limits = (name: string, stated: Stated, assumedPercent: Percent, exponent = 1): BudgetPart => {
    if (stated === "assumed") assumed.push(name);
    const halfWidth = stated === "assumed" ? assumedPercent : stated;
    requireAtLeast(`${name.toLowerCase()}Percent`, halfWidth, 0);
    const standardPercent = standardFromLimits(halfWidth, "rectangular");
    return { name, standardPercent, exponent, degreesOfFreedom: Number.POSITIVE_INFINITY };
  };
  const parts: BudgetPart[] = [];
  if (doubt.factorPercent !== "none") {
    parts.push(limits("Factor", doubt.factorPercent, assumedFactor.plusMinusPercent));
  }
  parts.push(limits("Instrument", doubt.instrumentPercent, instrument.plusMinusPercent));
  if (doubt.pitot !== null) {
    parts.push(limits("Density", doubt.pitot.densityPercent, density.plusMinusPercent, -0.5));
    parts.push(limits("Pitot tube", doubt.pitot.coefficientPercent, pitot.plusMinusPercent));
  }
  parts.push(limits("Area", doubt.areaPercent, area.plusMinusPercent));
  if (doubt.repeatPercent === "assumed") assumed.push("Repeat");
  parts.push(repeatPart(doubt));
  if (doubt.points !== null) {
    const { isAssumed, ...points } = pointsUncertainty(doubt.points.pointCount, doubt.points.spreadPercent);
    const name = isAssumed ? "One point" : "Points";
    if (isAssumed) assumed.push(name);
    parts.push({ name, exponent: 1, ...points });
  }
  const budget = uncertaintyBudget(parts);
  return { ...budget, assumed, summary: summaryOf(budget, assumed) };
}

function repeatPart(doubt: AirflowDoubt): BudgetPart {
  if (doubt.repeatPercent === "assumed") {
    const { standardPercent } = UNCERTAINTY_DEFAULTS.repeat;
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
  const whole = `± ${budget.expandedPercent.toFixed(1)} % (95 %)`;
  if (budget.standardPercent === 0) return `${whole}: no part was given any doubt`;
  const largest = budget.rows.reduce((most, row) => (row.sharePercent > most.sharePercent ? row : most));
  const name = largest.name.toLowerCase().replace("pitot", "Pitot");
  const source = largest.name === "Repeat" ? "repeatability" : name;
  const words = assumed.includes(largest.name) && largest.name !== "One point" ? `assumed ${source}` : source;
  const much = largest.sharePercent >= DOMINANT_SHARE_PERCENT ? "most" : "the largest part";
  const from = largest.name === "One point" ? "reading at one point only" : `the ${words}`;
  return `${whole}: ${much} of the doubt comes from ${from}`;
}
