import { sizeParts } from "./size-parts.js";
import { inPlainCharacters, SizeProblem, sizeTokens, unitAlone } from "./size-tokens.js";

/** Whether a hyphen joins a whole number and a fraction, so that nobody can tell 14 1/4 from 14 minus 1/4. */
const HYPHENED_FRACTION = /(\d+)-(\d+\/\d+)/;

/** What may stand before a value or an opening bracket: nothing, an operator, an opening bracket. */
function endsOperand(part: string | undefined): boolean {
  return part !== undefined && !/^[-+*/(]$/.test(part);
}

/**
 * Returns a typed size as arithmetic that mathjs reads: numbers, units of length, + - * / and brackets, nothing else.
 *
 * @throws {SizeProblem} Where it cannot be read or means two things
 */
export function sizeExpression(typed: string): string {
  const text = inPlainCharacters(typed);
  const [hyphened, whole, part] = HYPHENED_FRACTION.exec(text) ?? [];
  if (hyphened !== undefined) {
    throw new SizeProblem(
      `${hyphened} can mean two things. Write ${whole} ${part}, or ${whole} - ${part} to subtract.`,
    );
  }
  const parts: string[] = [];
  for (const part of sizeParts(sizeTokens(text))) {
    if (part.kind === "operator") {
      if (part.sign === "(" && endsOperand(parts.at(-1))) throw missingOperator();
      parts.push(part.sign);
    } else if (part.kind === "unit") {
      if (parts.at(-1) !== ")") throw unitAlone();
      parts.push(part.unit);
    } else {
      if (endsOperand(parts.at(-1))) throw missingOperator();
      const terms = part.terms.map(({ expression, unit }) => (unit === null ? expression : `${expression} ${unit}`));
      parts.push(part.terms.some(({ unit }) => unit !== null) ? `(${terms.join(" + ")})` : terms.join(""));
    }
  }
  return parts.join(" ");
}

function missingOperator(): SizeProblem {
  return new SizeProblem("Two numbers are side by side. Write +, - or * between them, or a fraction as 14 1/4.");
}
