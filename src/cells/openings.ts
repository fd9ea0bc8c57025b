import { factorFromEffectiveArea, flatOvalArea, freeAreaOnBasis, rectangleArea, roundArea } from "../core/index.js";
import { overBlocks } from "./over-blocks.js";
import { quietWhenEmpty } from "./quiet-when-empty.js";
import { readNeeded, readOptional } from "./read-range.js";
import { readLength } from "./read-size.js";
import { readUnits } from "./unit-system.js";

/**
 * Area of a rectangular opening. Columns of widths and heights give a column.
 *
 * @customfunction OPENING.RECT
 * @param width Width inside the frame [in or mm].
 * @param height Height inside the frame [in or mm].
 * @param [units] "ip" (in, ft2) or "si" (mm, m2); inch-pound when left out.
 * @returns Area [ft2 or m2].
 * @roles width height units
 */
export function vaneOpeningRect(width: any[][], height: any[][], units?: any): any[][] {
  return overBlocks(["width", "height"], [width, height], (oneWidth, oneHeight) =>
    quietWhenEmpty([oneWidth, oneHeight], () => {
      const system = readUnits(units);
      const widthIn = readLength("width", oneWidth, system);
      return system.fromFt2(rectangleArea(widthIn, readLength("height", oneHeight, system)));
    }),
  );
}

/**
 * Area of a round opening or duct. A column of diameters gives a column.
 *
 * @customfunction OPENING.ROUND
 * @param diameter Inside diameter [in or mm].
 * @param [units] "ip" (in, ft2) or "si" (mm, m2); inch-pound when left out.
 * @returns Area [ft2 or m2].
 * @roles diameter=width units
 */
export function vaneOpeningRound(diameter: any[][], units?: any): any[][] {
  return overBlocks(["diameter"], [diameter], (oneDiameter) =>
    quietWhenEmpty([oneDiameter], () => {
      const system = readUnits(units);
      return system.fromFt2(roundArea(readLength("diameter", oneDiameter, system)));
    }),
  );
}

/**
 * Area of a flat-oval opening or duct: a rectangle between two half circles.
 *
 * @customfunction OPENING.OVAL
 * @param major Longer inside dimension, over the half circles [in or mm].
 * @param minor Shorter inside dimension, the half circles' diameter [in or mm].
 * @param [units] "ip" (in, ft2) or "si" (mm, m2); inch-pound when left out.
 * @returns Area [ft2 or m2].
 * @roles major=width minor=height units
 */
export function vaneOpeningOval(major: any[][], minor: any[][], units?: any): any[][] {
  return overBlocks(["major", "minor"], [major, minor], (oneMajor, oneMinor) =>
    quietWhenEmpty([oneMajor, oneMinor], () => {
      const system = readUnits(units);
      const majorIn = readLength("major", oneMajor, system);
      return system.fromFt2(flatOvalArea(majorIn, readLength("minor", oneMinor, system)));
    }),
  );
}

/**
 * Area that louvers leave free. With neither a factor nor an effective area, 0.75 is assumed: say so on the sheet.
 *
 * @customfunction OPENING.FREE
 * @param area Area of the whole opening [ft2 or m2].
 * @param [factor] Published free-area factor, above 0 and at most 1 [ratio].
 * @param [effectiveArea] Published effective area in place of a factor; both at once are refused [ft2 or m2].
 * @returns Free area, in the unit of the area.
 * @roles area factor effectiveArea=area
 */
export function vaneOpeningFree(area: any[][], factor?: any[][], effectiveArea?: any[][]): any[][] {
  const names = ["area", "factor", "effectiveArea"];
  return overBlocks(names, [area, factor, effectiveArea], (oneArea, oneFactor, oneEffective) =>
    quietWhenEmpty([oneArea, oneFactor, oneEffective], () => {
      const freeAreaRatio = readOptional("factor", oneFactor, null);
      const effectiveAreaFt2 = readOptional("effectiveArea", oneEffective, null);
      return freeAreaOnBasis(readNeeded("area", oneArea), freeAreaRatio, effectiveAreaFt2).freeAreaFt2;
    }),
  );
}

/**
 * Free-area factor from a published effective area. Use the factor or the effective area in a sheet, never both.
 *
 * @customfunction OPENING.FACTOR
 * @param effectiveArea Effective area as published for this size and this instrument [ft2 or m2].
 * @param area Area of the whole opening, in the same unit [ft2 or m2].
 * @returns Free-area factor [ratio].
 * @roles effectiveArea=area area
 */
export function vaneOpeningFactor(effectiveArea: any[][], area: any[][]): any[][] {
  return overBlocks(["effectiveArea", "area"], [effectiveArea, area], (oneEffective, oneArea) =>
    quietWhenEmpty([oneEffective, oneArea], () =>
      factorFromEffectiveArea(readNeeded("effectiveArea", oneEffective), readNeeded("area", oneArea)),
    ),
  );
}
