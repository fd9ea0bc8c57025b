import { requireAtLeast } from "../check/require.js";
import type { Airflow, Percent } from "../units/quantity.js";
import { type DesignVerdict, designVerdict } from "./design-verdict.js";

/** The verdict, and whether the ± leaves it open. */
export interface DesignDecision {
  /** Simple acceptance: the airflow as measured against the limits. */
  readonly verdict: DesignVerdict;
  /** The ± reaches over a limit: the airflow may truly lie on its other side. */
  readonly isOpen: boolean;
  /** The verdict that holds at both ends of the ±; "open" where they differ. */
  readonly decision: DesignVerdict | "open";
}

/**
 * Returns whether a measured airflow lies within its limits, and whether its ± leaves that open.
 *
 * decided where Q − U and Q + U have the same verdict
 *
 * A contract usually asks for simple acceptance: the verdict without the ±. The decision is the guarded one, with a
 * guard band as wide as the ± on both sides of each limit.
 *
 * @param measuredFlow - Measured airflow, negative where the air runs the wrong way [cfm or L/s]
 * @param designFlow - Design airflow, above 0 [cfm or L/s]
 * @param expandedFlow - The ± of the measured airflow (95 %), 0 or more [cfm or L/s]
 * @param minusPercent - How far below design is allowed, 0 to 100 [%]
 * @param plusPercent - How far above design is allowed, 0 or more [%]
 * @returns The verdict by simple acceptance, whether it is open, and the guarded decision
 * @throws {DomainError} When an airflow is out of range, the ± negative or a limit out of its range
 * @source Eurachem/CITAC, Use of uncertainty information in compliance assessment, 2021, §4.2 to 4.4; JCGM 106:2012
 * @example
 * designDecision(160, 150, 8, 10, 10) // => { verdict: "within", isOpen: true, decision: "open" }
 * designDecision(152, 150, 8, 10, 10).decision // => "within"
 */
export function designDecision(
  measuredFlow: Airflow,
  designFlow: Airflow,
  expandedFlow: Airflow,
  minusPercent: Percent,
  plusPercent: Percent,
): DesignDecision {
  requireAtLeast("expandedFlow", expandedFlow, 0);
  const verdictAt = (airflow: Airflow) => designVerdict(airflow, designFlow, minusPercent, plusPercent);
  const [lowest, highest] = [verdictAt(measuredFlow - expandedFlow), verdictAt(measuredFlow + expandedFlow)];
  const isOpen = lowest !== highest;
  return { verdict: verdictAt(measuredFlow), isOpen, decision: isOpen ? "open" : lowest };
}
