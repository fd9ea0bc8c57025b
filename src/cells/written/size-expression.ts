import { inPlainCharacters, SizeProblem, type SizeToken, sizeTokens, unitAlone } from "./size-tokens.js";

/** Whether a hyphen joins a whole number and a fraction, so that nobody can tell 14 1/4 from 14 minus 1/4. */
const HYPHENED_FRACTION = /(\d+)-(\d+\/\d+)/;

function startsFeetAndInches(tokens: readonly SizeToken[], index: number): boolean {
  const [feet, ft, inches, inch] = tokens.slice(index, index + 4);
  return (
    feet?.kind === "value" &&
    ft?.kind === "unit" &&
    ft.unit === "ft" &&
    inches?.kind === "value" &&
    inch?.kind === "unit" &&
    inch.unit === "inch"
  );
}

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
  const tokens = sizeTokens(text);
  const parts: string[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index] as SizeToken;
    const next = tokens[index + 1];
    if (token.kind === "operator") {
      if (token.sign === "(" && endsOperand(parts.at(-1))) throw missingOperator();
      parts.push(token.sign);
    } else if (token.kind === "unit") {
      if (parts.at(-1) !== ")") throw unitAlone();
      parts.push(token.unit);
    } else {
      if (endsOperand(parts.at(-1))) throw missingOperator();
      if (startsFeetAndInches(tokens, index)) {
        const inches = tokens[index + 2];
        parts.push(`(${token.expression} ft + ${inches?.kind === "value" ? inches.expression : "0"} inch)`);
        index += 3;
      } else if (next?.kind === "unit") {
        parts.push(`(${token.expression} ${next.unit})`);
        index += 1;
      } else {
        parts.push(token.expression);
      }
    }
  }
  return parts.join(" ");
}

function missingOperator(): SizeProblem {
  return new SizeProblem("Two numbers are side by side. Write +, - or * between them, or a fraction as 14 1/4.");
}
