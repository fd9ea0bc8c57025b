import { PLAUSIBLE } from "../../shared/tables/plausible-ranges.js";
import { rectangleArea, roundArea } from "../core/index.js";
import { wrongInput } from "./cell-error.js";
import { asSingle, isGiven, readNeeded } from "./read-range.js";
import type { UnitSystem } from "./unit-system.js";
import { SizeProblem } from "./written/size-tokens.js";
import { writtenLength, writtenSize } from "./written/written-size.js";

/** The inside of an opening or a duct; a size without a height is a diameter. */
export interface Sides {
  readonly widthIn: number;
  readonly heightIn: number | null;
}

/**
 * Reads a width, a height or a diameter: a number in the person's unit, or a text as it is written on a grille.
 *
 * @returns The length [in]
 * @throws {CellError} `#N/A` when blank or 0, `#VALUE!` when it is no length, or a date
 */
export function readLength(argument: string, value: unknown, system: UnitSystem): number {
  // The usual argument: one number, and not the 0 of a blank cell.
  if (typeof value === "number" && value !== 0 && value <= PLAUSIBLE.length.most) return system.toIn(value);
  const single = asSingle(value);
  if (typeof single === "string" && single.trim() !== "") return readWritten(argument, single, system);
  const length = readNeeded(argument, single);
  if (length > PLAUSIBLE.length.most) {
    throw wrongInput(
      `${argument} is ${length}: a date, or a lost decimal point? Excel turns 6/8 into a date: enter 0.75.`,
    );
  }
  return system.toIn(length);
}

function readWritten(argument: string, text: string, system: UnitSystem): number {
  const said = `${argument} holds the text “${text.slice(0, 40)}”.`;
  if (writtenSize(text, system.name) !== undefined) {
    throw wrongInput(`${said} Enter width and height in two cells, each a number alone.`);
  }
  try {
    return system.toIn(writtenLength(text, system.name));
  } catch (cause) {
    if (cause instanceof SizeProblem) throw wrongInput(`${said} ${cause.message}`);
    throw cause;
  }
}

/** Reads width and height, where the width may hold both as one text, `14x6`, while no height is given. */
export function readSides(system: UnitSystem, width: unknown, height: unknown): Sides {
  const single = asSingle(width);
  const both = typeof single === "string" && !isGiven(height) ? writtenSize(single, system.name) : undefined;
  if (both !== undefined) {
    return { widthIn: system.toIn(both.width), heightIn: both.height === null ? null : system.toIn(both.height) };
  }
  const widthIn = readLength("width", width, system);
  return { widthIn, heightIn: isGiven(height) ? readLength("height", height, system) : null };
}

/** Returns the area in ft2 of a size in the person's units; a size without a height is a diameter. */
export function readArea(system: UnitSystem, width: unknown, height: unknown): number {
  // The usual opening: a column of a hundred thousand of them makes no object for each.
  if (typeof width === "number" && typeof height === "number" && height !== 0) {
    return rectangleArea(readLength("width", width, system), readLength("height", height, system));
  }
  const { widthIn, heightIn } = readSides(system, width, height);
  return heightIn === null ? roundArea(widthIn) : rectangleArea(widthIn, heightIn);
}
