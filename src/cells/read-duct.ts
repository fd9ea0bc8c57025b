import type { DuctSection } from "../core/index.js";
import { readSides } from "./read-size.js";
import type { UnitSystem } from "./unit-system.js";

/** Reads the inside of a duct; a width without a height is a diameter. */
export function readDuct(system: UnitSystem, width: unknown, height: unknown): DuctSection {
  const { widthIn, heightIn } = readSides(system, width, height);
  return heightIn === null ? { shape: "round", diameterIn: widthIn } : { shape: "rectangular", widthIn, heightIn };
}
