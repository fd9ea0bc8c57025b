import {
  type DuctSection,
  fieldLayout,
  flatOvalPoints,
  flowAngle,
  insertionDepths,
  method1Layout,
  minimumWallDistance,
  STRICT_WALL_DISTANCE_IN,
  siteCheck,
  type TraverseLayout,
  tapeText,
  tapeTextMm,
} from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { type CellResult, guard, NOTHING_YET } from "./guard.js";
import { overBlocks } from "./over-blocks.js";
import { readDuct } from "./read-duct.js";
import { allReadings, asSingle, isGiven, readFlag, readNeeded, readOptional, readReadings } from "./read-range.js";
import { type AskedRule, readRule } from "./read-rule.js";
import { readLength } from "./read-size.js";
import { readUnits } from "./unit-system.js";

function layoutOf(section: DuctSection, { positions, count }: AskedRule): TraverseLayout {
  return count === "method 1" ? method1Layout(section) : fieldLayout(section, positions);
}

/** How near to a wall a point of the rule may come: the log rules place theirs near it on purpose. */
function leastDistance(section: DuctSection, { positions, isStrict }: AskedRule): number {
  if (positions !== "equal area") return 0;
  const usualIn = minimumWallDistance(section);
  return isStrict ? Math.max(usualIn, STRICT_WALL_DISTANCE_IN) : usualIn;
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
 * @param [rule] "equal area", "log-linear" (round), "log-Tchebycheff" or "Method 1" (the minimum for a stack); log-linear in a round and log-Tchebycheff in a rectangular duct when left out.
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
 * Depth of each point of one line across the width, from the outside of the wall. Swap width and height and leave out
 * the wall to get the places of the holes up the height.
 *
 * @customfunction TRAVERSE.DEPTHS
 * @param width Inside width that the probe crosses, or the diameter where no height is given [in or mm].
 * @param [height] Inside height of the duct; blank for a round one [in or mm].
 * @param [points] Points on the line; the usual count of the rule when left out.
 * @param [rule] "equal area", "log-linear" (round), "log-Tchebycheff", "Method 1" or "ST-18". Both are equal area; ST-18 keeps 1 in from the wall. When left out, log-linear in a round and log-Tchebycheff in a rectangular duct.
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
    const leastIn = leastDistance(section, asked);
    const tapeOf = system.name === "si" ? tapeTextMm : tapeText;
    const shown = readFlag("tape", tape) ? tapeOf : system.fromIn;
    return insertionDepths(section, asked.positions, pointsPerLine, wallIn, leastIn).map((depthIn) => [shown(depthIn)]);
  });
}

/** A small round duct takes a thin tube, and a Type S blocks too much of it. */
function probeWords(section: DuctSection): string {
  if (section.shape !== "round") return "";
  if (section.diameterIn <= THIN_TUBE_UP_TO_IN * (1 + 1e-9)) return "; use a 1/8 in standard Pitot tube";
  return section.diameterIn < NO_TYPE_S_BELOW_IN * (1 - 1e-9) ? "; no Type S tube" : "";
}

/** Balancing of a Water and Air System (training document), pp. 16-17, and Method 1A. */
const THIN_TUBE_UP_TO_IN = 10;
const NO_TYPE_S_BELOW_IN = 12;

/**
 * Says whether a place in a duct suits a traverse. Good: 8 diameters downstream of the last fitting and 2 upstream of
 * the next. Minimum: 2 and 0.5. Columns of equal height give a column.
 *
 * @customfunction TRAVERSE.SITE
 * @param width Inside width of the duct, or its diameter where no height is given [in or mm].
 * @param height Inside height of the duct; blank for a round one [in or mm].
 * @param upstream Straight duct from the last fitting, damper or fan to the traverse location [ft or m].
 * @param downstream Straight duct from the traverse location to the next fitting or the open end [ft or m].
 * @param [units] "ip" (in, ft) or "si" (mm, m); inch-pound when left out.
 * @returns The word good, usable or too near, with the distances in diameters and what to do.
 * @roles width height units
 */
export function vaneTraverseSite(
  width: any[][],
  height: any[][],
  upstream: any[][],
  downstream: any[][],
  units?: any,
): any[][] {
  const names = ["width", "height", "upstream", "downstream"];
  return overBlocks(names, [width, height, upstream, downstream], (oneWidth, oneHeight, oneUpstream, oneDownstream) => {
    if (!isGiven(oneWidth) && !isGiven(oneHeight)) return NOTHING_YET;
    const system = readUnits(units);
    const section = readDuct(system, oneWidth, oneHeight);
    const inches = (argument: string, value: unknown) => 12 * system.toFt(readNeeded(argument, value));
    const { words } = siteCheck(section, inches("upstream", oneUpstream), inches("downstream", oneDownstream));
    return words + probeWords(section);
  });
}

/**
 * Says whether the air in a duct flows straight enough for a traverse. Turn a Pitot tube to a null reading at each
 * point: the angles must average 20 degrees or less.
 *
 * @customfunction TRAVERSE.ANGLE
 * @param angles Block of angles, of either sign, one a point; 0 where no turning was needed [deg].
 * @param [taken] COUNT of the same cells; lets a 0 angle count and a blank be skipped.
 * @returns The word suitable or swirling, with the average angle.
 * @roles taken
 */
export function vaneTraverseAngle(angles: any[][], taken?: any): any {
  return guard(() => {
    const read = readReadings("angles", angles, taken);
    return read === null ? NOTHING_YET : flowAngle(allReadings(read)).words;
  });
}

/**
 * The plan of a traverse in a flat oval duct, with points in equal areas. One row per hole along the long side: its
 * distance from the end of the duct, then the depth of each point from the outside of the wall.
 *
 * @customfunction TRAVERSE.OVAL
 * @param major Inside width from end to end [in or mm].
 * @param minor Inside height between the flat sides [in or mm].
 * @param [lines] Holes along the long side; the usual count for equal areas when left out.
 * @param [points] Points on each line; the usual count for equal areas when left out.
 * @param [wall] Thickness of wall, lining and nipple before the air; 0 when left out [in or mm].
 * @param [tape] TRUE for text as a tape is read, to 1/8 in or 1 mm; a number when left out.
 * @param [units] "ip" (in) or "si" (mm); inch-pound when left out.
 * @returns A row for each hole: its distance from the end, then the depths [in or mm].
 * @roles units
 */
export function vaneTraverseOval(
  major: any,
  minor: any,
  lines?: any,
  points?: any,
  wall?: any,
  tape?: any,
  units?: any,
): any[][] {
  return guard(() => {
    if (!isGiven(asSingle(major)) && !isGiven(asSingle(minor))) return [[NOTHING_YET]];
    const system = readUnits(units);
    const [majorIn, minorIn] = [readLength("major", major, system), readLength("minor", minor, system)];
    const givenLines = readOptional("lines", lines, null);
    const givenPoints = readOptional("points", points, null);
    const section = { shape: "flat oval", majorIn, minorIn } as const;
    const usual = () => fieldLayout(section, "equal area");
    const lineCount = givenLines ?? usual().lines;
    const pointCount = givenPoints ?? usual().pointsPerLine;
    const tapeOf = system.name === "si" ? tapeTextMm : tapeText;
    const shown: (inches: number) => CellResult = readFlag("tape", tape) ? tapeOf : system.fromIn;
    const wallIn = system.toIn(readOptional("wall", wall, 0));
    const leastIn = minimumWallDistance(section);
    return flatOvalPoints(majorIn, minorIn, lineCount, pointCount, wallIn, leastIn).map(({ holeIn, depthsIn }) =>
      [holeIn, ...depthsIn].map((inches) => shown(inches)),
    );
  });
}
