import { COVERAGE_FACTORS } from "../../../../shared/tables/coverage-factors.js";
import { MOST_COMPARED_FREEDOM } from "../../../core/index.js";

/** The coverage factor for a whole number of degrees of freedom, as the table has it. */
export function coverage(freedom: string): string {
  const from = COVERAGE_FACTORS.map(([degrees]) => degrees).join(",");
  return `LOOKUP(${freedom},{${from}},{${COVERAGE_FACTORS.map(([, factor]) => factor).join(",")}})`;
}

/** The table up to where a comparison counts degrees of freedom: every whole number from 1 on, the smallest factor first. */
const COMPARED = COVERAGE_FACTORS.filter(([degrees]) => degrees <= MOST_COMPARED_FREEDOM)
  .map(([, factor]) => factor)
  .reverse()
  .join(",");

/**
 * The coverage factor of a comparison, between two rows of the table too: a percentile of evenly spaced rows is just
 * that, and takes the degrees of freedom once.
 *
 * @param freedom - Formula text of the degrees of freedom, 1 to the most that a comparison counts
 */
export function comparedCoverage(freedom: string): string {
  return `PERCENTILE({${COMPARED}},(${MOST_COMPARED_FREEDOM}-${freedom})/${MOST_COMPARED_FREEDOM - 1})`;
}
