/** A piece of a typed size. */
export type SizeToken =
  | { readonly kind: "value"; readonly expression: string }
  | { readonly kind: "unit"; readonly unit: LengthUnit }
  | { readonly kind: "operator"; readonly sign: string };

export type LengthUnit = "inch" | "ft" | "mm" | "cm" | "m";

/** Puts the characters that people, phones and word processors use into plain ones. */
export function inPlainCharacters(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replace(/[½¼¾⅛⅜⅝⅞⅓⅔]/g, (character) => ` ${character.normalize("NFKD")}`)
    .replace(/''|[″”“]/g, '"')
    .replace(/[′’‘]/g, "'")
    .replace(/[−–—]/g, "-")
    .replace(/[·⋅]/g, "*")
    .replace(/×/g, "x")
    .replace(/^[ø⌀∅]\s*/, "")
    .replace(/^=\s*/, "");
}

/** Every spelling of a unit that people use, in small letters and without a point behind it. */
const SPELLINGS: readonly (readonly [unit: LengthUnit, spelling: RegExp])[] = [
  ["inch", /^(?:in(?:ch(?:es)?)?|")$/],
  ["ft", /^(?:ft|foot|feet|')$/],
  ["mm", /^(?:mm|millimet(?:er|re)s?)$/],
  ["cm", /^(?:cm|centimet(?:er|re)s?)$/],
  ["m", /^(?:m|met(?:er|re)s?)$/],
];

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

/** A comma with three digits behind it is a decimal comma to one person and a thousand to another. */
export const NO_COMMA = "Write decimals with a point, and thousands without a comma.";

const EXAMPLES = "Write it like 14 1/4, 350 mm or 12 - 2*1/2.";

function fraction(whole: string | undefined, numerator: string, denominator: string): SizeToken {
  if (Number(denominator) === 0) throw new SizeProblem(`${numerator}/${denominator} divides by zero.`);
  if (whole === undefined) return { kind: "value", expression: `(${numerator}/${denominator})` };
  if (Number(numerator) >= Number(denominator)) {
    throw new SizeProblem(`${whole} ${numerator}/${denominator} is not a mixed number: the fraction must be below 1.`);
  }
  return { kind: "value", expression: `(${whole}+${numerator}/${denominator})` };
}

function unitToken(word: string): SizeToken {
  const unit = SPELLINGS.find(([, spelling]) => spelling.test(word))?.[0];
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
  if (rest.startsWith(",")) throw new SizeProblem(NO_COMMA);
  throw new SizeProblem(`“${rest}” cannot be read as a size. ${EXAMPLES}`);
}

/** The problem of a unit with no number before it. */
export function unitAlone(): SizeProblem {
  return new SizeProblem("There is a unit where a number should be. Write 14 in, or 350 mm.");
}
