import { rectangleArea, roundArea } from "../core/index.js";
import { isGiven, readNeeded } from "./read-range.js";
import type { UnitSystem } from "./unit-system.js";

/** Returns the area in ft2 of a size in the person's units; a size without a height is a diameter. */
export function readArea(system: UnitSystem, width: unknown, height: unknown): number {
  const widthIn = system.toIn(readNeeded("width", width));
  return isGiven(height) ? rectangleArea(widthIn, system.toIn(readNeeded("height", height))) : roundArea(widthIn);
}
