import type { DuctSection } from "../core/index.js";
import { isGiven, readNeeded } from "./read-range.js";
import type { UnitSystem } from "./unit-system.js";

/** Reads the inside of a duct; a width without a height is a diameter. */
export function readDuct(system: UnitSystem, width: unknown, height: unknown): DuctSection {
  const widthIn = system.toIn(readNeeded("width", width));
  return isGiven(height)
    ? { shape: "rectangular", widthIn, heightIn: system.toIn(readNeeded("height", height)) }
    : { shape: "round", diameterIn: widthIn };
}
