import { UNCERTAINTY_DEFAULTS } from "../../shared/tables/uncertainty-defaults.js";
import { type AirflowBudget, type AirflowDoubt, airflowBudget } from "../core/index.js";

/** What the free area of an airflow rests on, as far as its ± goes. */
export type FactorStanding = "assumed" | "published" | "open";

/**
 * Returns the budget of an airflow about whose instrument, area and repeats nothing is stated.
 *
 * @param known - What the readings themselves tell: their points, or that they are pressures and how the gauge errs
 */
export function assumedBudget(
  factor: FactorStanding,
  known: Partial<Pick<AirflowDoubt, "instrumentPercent" | "points" | "pitot">>,
): AirflowBudget {
  const published = UNCERTAINTY_DEFAULTS.publishedFactor.plusMinusPercent;
  return airflowBudget({
    instrumentPercent: "assumed",
    areaPercent: "assumed",
    repeatPercent: "assumed",
    repeatDegreesOfFreedom: Number.POSITIVE_INFINITY,
    factorPercent: { assumed: "assumed" as const, published, open: "none" as const }[factor],
    points: null,
    pitot: null,
    ...known,
  });
}
