import {
  type DuctSection,
  fieldLayout,
  insertionDepths,
  method1Layout,
  minimumWallDistance,
  type TraverseLayout,
  tapeText,
  tapeTextMm,
} from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { guard, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { readDuct } from "./read-duct.js";
import { asSingle, isGiven, readFlag, readOptional } from "./read-range.js";
import { type AskedRule, readRule } from "./read-rule.js";
import { readUnits } from "./unit-system.js";

function layoutOf(section: DuctSection, { positions, count }: AskedRule): TraverseLayout {
  return count === "method 1" ? method1Layout(section) : fieldLayout(section, positions);
}

function partOf({ lines, pointsPerLine }: TraverseLayout, part: unknown): number {
  const single = asSingle(part);
  if (!isGiven(single) || single === "total") return lines * pointsPerLine;
  if (single === "lines") return lines;
  if (single === "line") return pointsPerLine;
  throw wrongInput('part must be "total", "lines" (how many lines) or "line" (points on one line).');
}

/**
 * How many points a traverse of a duct takes, by the usual count of the rule. Columns of sizes give a column.
 *
 * @customfunction TRAVERSE.POINTS
 * @param width Inside width of the duct, or its diameter where no height is given [in or mm].
 * @param [height] Inside height of the duct; blank for a round one [in or mm].
 * @param [rule] "equal area", "log-linear" (round), "log-Tchebycheff" or "Method 1" (the least number for a stack); log-linear in a round and log-Tchebycheff in a rectangular duct when left out.
 * @param [part] "total", "lines" (diameters, or rows across the width) or "line" (points on one line); the total when left out.
 * @param [units] "ip" (in) or "si" (mm); inch-pound when left out.
 * @returns Number of points or lines.
 * @roles width height rule units
 */
export function vaneTraversePoints(
  width: any[][],
  height?: any[][],
  rule?: any[][],
  part?: any[][],
  units?: any,
): any[][] {
  const names = ["width", "height", "rule", "part"];
  return overBlocks(names, [width, height, rule, part], (oneWidth, oneHeight, oneRule, onePart) => {
    if (!isGiven(oneWidth) && !isGiven(oneHeight)) return NOTHING_YET;
    const section = readDuct(readUnits(units), oneWidth, oneHeight);
    return partOf(layoutOf(section, readRule(oneRule, section)), onePart);
  });
}

/**
 * How deep to push the probe for each point of one line across the width, from the outside of the wall. Swap width and
 * height and leave out the wall to get the places of the holes up the height.
 *
 * @customfunction TRAVERSE.DEPTHS
 * @param width Inside width that the probe crosses, or the diameter where no height is given [in or mm].
 * @param [height] Inside height of the duct; blank for a round one [in or mm].
 * @param [points] Points on the line; the usual count of the rule when left out.
 * @param [rule] "equal area", "log-linear" (round), "log-Tchebycheff" or "Method 1" (equal area); log-linear in a round and log-Tchebycheff in a rectangular duct when left out.
 * @param [wall] Thickness of wall, lining and nipple before the air; 0 when left out [in or mm].
 * @param [tape] TRUE for text as a tape is read, to 1/8 in or 1 mm; a number when left out.
 * @param [units] "ip" (in) or "si" (mm); inch-pound when left out.
 * @returns A column of depths, one a point; a depth that stands twice is read once and counts twice [in or mm].
 * @roles width height points rule units
 */
export function vaneTraverseDepths(
  width: any,
  height?: any,
  points?: any,
  rule?: any,
  wall?: any,
  tape?: any,
  units?: any,
): any[][] {
  return guard(() => {
    if (!isGiven(asSingle(width)) && !isGiven(asSingle(height))) return [[NOTHING_YET]];
    const system = readUnits(units);
    const section = readDuct(system, width, height);
    const asked = readRule(rule, section);
    const pointsPerLine = readOptional("points", points, null) ?? layoutOf(section, asked).pointsPerLine;
    const wallIn = system.toIn(readOptional("wall", wall, 0));
    const leastIn = asked.positions === "equal area" ? minimumWallDistance(section) : 0;
    const tapeOf = system.name === "si" ? tapeTextMm : tapeText;
    const shown = readFlag("tape", tape) ? tapeOf : system.fromIn;
    return insertionDepths(section, asked.positions, pointsPerLine, wallIn, leastIn).map((depthIn) => [shown(depthIn)]);
  });
}
