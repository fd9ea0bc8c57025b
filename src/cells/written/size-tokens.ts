/** A piece of a typed size. */
export type SizeToken =
  | { readonly kind: "value"; readonly expression: string }
  | { readonly kind: "unit"; readonly unit: LengthUnit }
  | { readonly kind: "operator"; readonly sign: string };

export type LengthUnit = "inch" | "ft" | "mm" | "cm" | "m";

/** Every spelling of a unit that people use, in small letters and without a point behind it. */
const SPELLINGS: Readonly<Record<string, LengthUnit>> = {
  in: "inch",
  inch: "inch",
  inches: "inch",
  '"': "inch",
  ft: "ft",
  foot: "ft",
  feet: "ft",
  "'": "ft",
  mm: "mm",
  millimeter: "mm",
  millimeters: "mm",
  millimetre: "mm",
  millimetres: "mm",
  cm: "cm",
  centimeter: "cm",
  centimeters: "cm",
  centimetre: "cm",
  centimetres: "cm",
  m: "m",
  meter: "m",
  meters: "m",
  metre: "m",
  metres: "m",
};

const TOKEN = new RegExp(
  [
    String.raw`\s*(?:(?<whole>\d+)\s+)?(?<numerator>\d+)\s*[/⁄]\s*(?<denominator>\d+)(?![\d.])`,
    String.raw`\s*(?<number>\d+\.?\d*|\.\d+)`,
    String.raw`\s*(?<word>[a-z]+|["'])\.?`,
    String.raw`\s*(?<sign>[-+*/()])`,
  ].join("|"),
  "y",
);

/** What cannot be read of a typed size, as a sentence. */
export class SizeProblem extends Error {}

const EXAMPLES = "Write a number, with a unit or without: 14 1/4, 350 mm, 12 - 2*1/2.";

function fraction(whole: string | undefined, numerator: string, denominator: string): SizeToken {
  if (Number(denominator) === 0) throw new SizeProblem(`${numerator}/${denominator} divides by zero.`);
  if (whole === undefined) return { kind: "value", expression: `(${numerator}/${denominator})` };
  if (Number(numerator) >= Number(denominator)) {
    throw new SizeProblem(`${whole} ${numerator}/${denominator} is not a mixed number: the fraction must be below 1.`);
  }
  return { kind: "value", expression: `(${whole}+${numerator}/${denominator})` };
}

function unitToken(word: string): SizeToken {
  const unit = Object.hasOwn(SPELLINGS, word) ? SPELLINGS[word] : undefined;
  if (unit !== undefined) return { kind: "unit", unit };
  if (word === "x" || word === "by") {
    throw new SizeProblem("Type width and height each in its own field. To multiply, use *.");
  }
  throw new SizeProblem(`“${word}” is not a known unit of length. Write in, ft, mm, cm or m.`);
}

/**
 * Takes a typed size, already in plain characters, apart.
 *
 * @throws {SizeProblem} At the first piece that is none
 */
export function sizeTokens(text: string): readonly SizeToken[] {
  const tokens: SizeToken[] = [];
  TOKEN.lastIndex = 0;
  let end = 0;
  for (let match = TOKEN.exec(text); match !== null; match = TOKEN.exec(text)) {
    end = TOKEN.lastIndex;
    const { whole, numerator, denominator, number, word, sign } = match.groups ?? {};
    if (numerator !== undefined && denominator !== undefined) tokens.push(fraction(whole, numerator, denominator));
    else if (number !== undefined) tokens.push({ kind: "value", expression: number });
    else if (word !== undefined) tokens.push(unitToken(word));
    else if (sign !== undefined) tokens.push({ kind: "operator", sign });
  }
  const rest = text.slice(end).trim();
  if (rest === "") return tokens;
  if (rest.startsWith(",")) throw new SizeProblem("Write decimals with a point, not a comma: 14.25.");
  throw new SizeProblem(`“${rest}” cannot be read as a size. ${EXAMPLES}`);
}
