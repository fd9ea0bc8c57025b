import { DomainError } from "../check/domain-error.js";
import type { Count, Inch } from "../units/quantity.js";
import { type AnyDuctSection, type RectangularDuct, type RoundDuct, requireDuctSection } from "./duct-section.js";
import { equalAreaGrid } from "./equal-area-grid.js";
import { exceeds } from "./exceeds.js";
import { largestEqualAreaGrid } from "./largest-equal-area-grid.js";
import { LONGEST_CELL_RATIO, pointsOf } from "./near-square-grids.js";
import type { TraverseLayout } from "./traverse-layout.js";
import { requireRule, type TraverseRule } from "./traverse-rule.js";

const TRAINING = "Balancing of a Water and Air System (training document), pp. 16-17";
const COMMON_PRACTICE = "Common practice, no source";

/** Largest round duct that is content with few points on a diameter. */
const SMALL_ROUND_IN: Inch = 10;

/** Largest rectangular duct that is content with four points. */
const SMALL_RECTANGULAR_IN: Inch = 4;

/** Equal area, rectangular: at least 16 points, centers 6 in apart or less until there are 64. */
const FEWEST_CELLS: Count = 16;
const MOST_CELLS: Count = 64;
const CELL_SPACING_IN: Inch = 6;

/** Flattest duct that the most cells can cover in a single row of near-square ones. */
const FLATTEST_DUCT = MOST_CELLS * LONGEST_CELL_RATIO;

/** Log-Tchebycheff, rectangular: 5 points on a side below 30 in, 6 up to 36 in, 7 above. */
const FIVE_POINTS_BELOW_IN: Inch = 30;
const SIX_POINTS_UP_TO_IN: Inch = 36;

function roundLayout({ diameterIn }: RoundDuct, rule: TraverseRule): TraverseLayout {
  const isSmall = !exceeds(diameterIn, SMALL_ROUND_IN);
  return rule === "equal area"
    ? { lines: 2, pointsPerLine: isSmall ? 6 : 10, source: TRAINING }
    : { lines: 3, pointsPerLine: isSmall ? 6 : 8, source: COMMON_PRACTICE };
}

function cellLayout({ widthIn, heightIn }: RectangularDuct): TraverseLayout {
  if (!exceeds(Math.max(widthIn, heightIn), SMALL_RECTANGULAR_IN))
    return { lines: 2, pointsPerLine: 2, source: TRAINING };
  if (exceeds(Math.max(widthIn / heightIn, heightIn / widthIn), FLATTEST_DUCT)) {
    const expected = `from 1/${FLATTEST_DUCT} to ${FLATTEST_DUCT} times the height for equal area`;
    throw new DomainError("widthIn", expected, widthIn);
  }
  const mayExceed = exceeds(widthIn * heightIn, MOST_CELLS * CELL_SPACING_IN ** 2);
  const close = mayExceed ? undefined : equalAreaGrid(widthIn, heightIn, FEWEST_CELLS, CELL_SPACING_IN);
  const grid =
    close !== undefined && pointsOf(close) <= MOST_CELLS ? close : largestEqualAreaGrid(widthIn, heightIn, MOST_CELLS);
  return { lines: grid.rows, pointsPerLine: grid.columns, source: COMMON_PRACTICE };
}

function logTchebycheffSideCount(sideIn: Inch): Count {
  if (exceeds(FIVE_POINTS_BELOW_IN, sideIn)) return 5;
  return exceeds(sideIn, SIX_POINTS_UP_TO_IN) ? 7 : 6;
}

/**
 * Returns the number of points that is usual in air balancing, and how they divide into lines.
 *
 * Equal area, round: two diameters of 6 points up to 10 in, of 10 above. Equal area, rectangular: 16 to 64 near-square
 * cells with centers 6 in apart or less until there are 64; 4 cells where no side exceeds 4 in. Log-linear and
 * log-Tchebycheff, round: three diameters of 6 points up to 10 in, of 8 above. Log-Tchebycheff, rectangular: 5 points
 * on a side below 30 in, 6 up to 36 in, 7 above. Flat oval: equal area alone, as many as a rectangle of its axes has.
 *
 * @param section - Inside dimensions, above 0; lines cross the width of a rectangular duct, the minor axis of an oval
 * @param rule - "equal area", "log-linear" (round only) or "log-Tchebycheff"
 * @returns Lines, points on each, and where the number comes from
 * @throws {DomainError} When a dimension is not positive, the rule does not fit the shape, or the duct is too flat
 * @source Balancing of a Water and Air System (training document), pp. 16-17, for equal area in round and in very
 *   small ducts; the rest common practice, no source
 * @example
 * fieldLayout({ shape: "rectangular", widthIn: 32, heightIn: 20 }, "log-Tchebycheff")
 * // => { lines: 5, pointsPerLine: 6, source: "Common practice, no source" }
 */
export function fieldLayout(section: AnyDuctSection, rule: TraverseRule): TraverseLayout {
  requireDuctSection(section);
  requireRule(rule);
  if (section.shape === "round") return roundLayout(section, rule);
  if (section.shape === "flat oval") {
    if (rule !== "equal area") throw new DomainError("rule", '"equal area" for a flat oval duct', rule);
    return cellLayout({ shape: "rectangular", widthIn: section.minorIn, heightIn: section.majorIn });
  }
  if (rule === "equal area") return cellLayout(section);
  if (rule === "log-Tchebycheff") {
    return {
      lines: logTchebycheffSideCount(section.heightIn),
      pointsPerLine: logTchebycheffSideCount(section.widthIn),
      source: COMMON_PRACTICE,
    };
  }
  throw new DomainError("rule", '"equal area" or "log-Tchebycheff" for a rectangular duct', rule);
}
