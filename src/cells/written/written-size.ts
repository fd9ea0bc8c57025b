import type { UnitSystemName } from "../../core/index.js";
import { sizeParts } from "./size-parts.js";
import { inPlainCharacters, type LengthUnit, NO_COMMA, SizeProblem, sizeTokens, unitAlone } from "./size-tokens.js";

/** Width and height, or the diameter as the width, in in or mm. */
export interface WrittenSize {
  readonly width: number;
  /** Null for a round opening. */
  readonly height: number | null;
}

const INCHES: Readonly<Partial<Record<LengthUnit, number>>> = { inch: 1, ft: 12 };
const MILLIMETERS: Readonly<Partial<Record<LengthUnit, number>>> = { mm: 1, cm: 10, m: 1000 };
const ROUND =
  /^(?:[ø⌀∅]|dia\.?|diam\.?|d\s*=|round|rd\.?)\s*|\s*(?:[ø⌀∅]|dia\.?|diameter|diam\.?|round|rd\.?|rund|redondo)$/giu;
const BETWEEN = /\s*(?:×|[x*]|\bby\b|\bpor\b)\s*/i;
const UNIT = /[a-z"'″”′’]/i;
const FRACTION = /[/⁄½¼¾⅛⅜⅝⅞⅓⅔]/;

/** A comma with three digits behind it is a decimal comma to one person and a thousand to another. */
const UNCLEAR_COMMA = /\d,\d{3}(?!\d)/;

/** Adds and divides the numbers of a fraction: `12+1/2`. */
function arithmetic(text: string): number {
  return text.split("+").reduce((sum, term) => {
    const [over = "", under] = term.replace(/[()\s]/g, "").split("/");
    return sum + Number(over) / (under === undefined ? 1 : Number(under));
  }, 0);
}

/** A number with the unit behind it, in in or mm. */
function withUnit(number: number, unit: LengthUnit, units: UnitSystemName): number {
  const inches = INCHES[unit];
  if (inches !== undefined) return units === "ip" ? number * inches : number * inches * 25.4;
  const millimeters = number * (MILLIMETERS[unit] ?? Number.NaN);
  return units === "si" ? millimeters : millimeters / 25.4;
}

/** One length in in or mm: what a person writes, feet and inches and fractions included. */
function lengthOf(text: string, units: UnitSystemName): number {
  if (units === "si" && FRACTION.test(text) && !UNIT.test(text)) {
    throw new SizeProblem("A fraction needs its unit here. Enter millimeters, or write the unit.");
  }
  const parts = sizeParts(sizeTokens(inPlainCharacters(text)));
  if (parts.some(({ kind }) => kind === "operator")) throw new SizeProblem("This is a calculation. Enter its result.");
  if (parts.some(({ kind }) => kind === "unit")) throw unitAlone();
  const [length, ...others] = parts;
  if (others.length > 0) throw new SizeProblem("Two numbers are side by side.");
  const terms = length?.kind === "length" ? length.terms : [];
  const sum = terms.reduce((total, { expression, unit }) => {
    const number = arithmetic(expression);
    return total + (unit === null ? number : withUnit(number, unit, units));
  }, 0);
  if (!Number.isFinite(sum) || sum <= 0) throw new SizeProblem("This is not a length.");
  return sum;
}

/** The text with decimal points. */
function withPoints(text: string): string {
  if (UNCLEAR_COMMA.test(text)) throw new SizeProblem(NO_COMMA);
  return text.trim().replace(/,(?=\d)/g, ".");
}

/**
 * Reads one length that is written as on a grille: `12 1/2`, `12.5"`, `1' 2"`, `350 mm`.
 *
 * A number alone is refused, since a number that is text is a slip of the hand everywhere else too.
 *
 * @param text - As it is in the cell; a fraction without a unit is in inches, and refused among millimeters
 * @returns The length in in, or in mm for "si"
 * @throws {SizeProblem} Where it cannot be read or means two things
 */
export function writtenLength(text: string, units: UnitSystemName): number {
  const plain = withPoints(text);
  if (/^[+-]?[\d.\s]+$/.test(plain)) throw new SizeProblem("This number is stored as text. Enter it as a number.");
  return lengthOf(plain, units);
}

/**
 * Reads a size that is in one cell: `14x6`, `12 1/2" x 8"`, `300 × 150`, `12 round`, `ø10`, `1' 2" x 6"`.
 *
 * @param text - As it is in the cell; numbers without a unit are in the unit of the column
 * @param scale - Times a number of the column gives in or mm
 * @returns The size in in, or in mm for "si"; undefined where it cannot be read
 */
export function writtenSize(text: string, units: UnitSystemName, scale = 1): WrittenSize | undefined {
  try {
    const plain = withPoints(text);
    const round = plain.replace(ROUND, "").trim();
    const isRound = round !== plain;
    const sides = round.split(BETWEEN);
    const own = (side: string) => (UNIT.test(side) ? 1 : scale);
    const [width = 0, height] = sides.map((side) => own(side) * lengthOf(shared(side, sides), units));
    if (sides.length === 1) return isRound ? { width, height: null } : undefined;
    return sides.length === 2 && !isRound && height !== undefined ? { width, height } : undefined;
  } catch (cause) {
    if (cause instanceof SizeProblem) return undefined;
    throw cause;
  }
}

/** A unit behind the last side alone counts for both: `14 x 6 in`. */
function shared(side: string, sides: readonly string[]): string {
  const [unit] = /\s*(?:in\.?|inch(?:es)?|mm|cm)$/i.exec(sides.at(-1) ?? "") ?? [];
  return unit === undefined || UNIT.test(side) ? side : `${side} ${unit.trim()}`;
}

/** Whether a text is a size or a length that a cell function reads, in either system of units. */
export function isWrittenSize(text: string): boolean {
  if (writtenSize(text, "ip") !== undefined) return true;
  try {
    return writtenLength(text, "ip") > 0;
  } catch (cause) {
    if (cause instanceof SizeProblem) return false;
    throw cause;
  }
}
