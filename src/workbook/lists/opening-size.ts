import { sizeExpression } from "../typed/size-expression.js";
import { SizeProblem } from "../typed/size-tokens.js";

/** Width and height, or the diameter as the width, in in or mm. */
export interface ReadSize {
  readonly width: number;
  /** Null for a round opening. */
  readonly height: number | null;
}

const INCHES: Readonly<Record<string, number>> = { inch: 1, ft: 12 };
const MILLIMETERS: Readonly<Record<string, number>> = { mm: 1, cm: 10, m: 1000 };
const PIECE = /\(([^()]*(?:\([^()]*\)[^()]*)*)\)|([\d.]+)/g;
const ROUND =
  /^(?:[ø⌀∅]|dia\.?|diam\.?|d\s*=|round|rd\.?)\s*|\s*(?:[ø⌀∅]|dia\.?|diameter|diam\.?|round|rd\.?|rund|redondo)$/giu;
const BETWEEN = /\s*(?:×|[x*]|\bby\b|\bpor\b)\s*/i;

/** Adds and divides the numbers of a fraction: `12+1/2`. */
function arithmetic(text: string): number {
  return text.split("+").reduce((sum, term) => {
    const [over = "", under] = term.replace(/[()\s]/g, "").split("/");
    return sum + Number(over) / (under === undefined ? 1 : Number(under));
  }, 0);
}

/** One length in in or mm: what a person writes, feet and inches and fractions included. */
function lengthOf(text: string, units: "in" | "mm"): number {
  const expression = sizeExpression(text);
  if (/[-*]/.test(expression.replace(/inch/g, ""))) throw new SizeProblem("is a calculation");
  let sum = 0;
  let found = false;
  for (const [, group, plain] of expression.matchAll(PIECE)) {
    const piece = group ?? plain ?? "";
    for (const term of /\binch|\bft|\bmm|\bcm|\bm\b/.test(piece) ? piece.split(/\+(?![^(]*\))/) : [piece]) {
      const [unit = ""] = /(?:inch|ft|mm|cm|m)\b/.exec(term) ?? [];
      const number = arithmetic(term.replace(/\s*(?:inch|ft|mm|cm|m)\b/, ""));
      const inches = INCHES[unit];
      const millimeters = MILLIMETERS[unit];
      if (inches !== undefined) sum += units === "in" ? number * inches : number * inches * 25.4;
      else if (millimeters !== undefined) sum += units === "mm" ? number * millimeters : (number * millimeters) / 25.4;
      else sum += number;
      found = true;
    }
  }
  if (!found || !Number.isFinite(sum) || sum <= 0) throw new SizeProblem("is not a length");
  return sum;
}

/**
 * Reads a size that stands in one cell: `14x6`, `12 1/2" x 8"`, `300 × 150`, `12 round`, `ø10`, `1' 2" x 6"`.
 *
 * @param text - As it stands; numbers without a unit are in the unit of the column
 * @param scale - Times a number of the column gives in or mm
 * @returns The size; undefined where it cannot be read
 */
export function readOpeningSize(text: string, units: "in" | "mm", scale = 1): ReadSize | undefined {
  const plain = text.trim().replace(/,(?=\d)/g, ".");
  const round = plain.replace(ROUND, "").trim();
  const isRound = round !== plain;
  const sides = round.split(BETWEEN);
  const own = (side: string) => (/[a-z"'″”′’]/i.test(side) ? 1 : scale);
  try {
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
  return unit === undefined || /[a-z"'″”′’]/i.test(side) ? side : `${side} ${unit.trim()}`;
}
