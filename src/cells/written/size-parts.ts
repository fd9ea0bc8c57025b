import type { LengthUnit, SizeToken } from "./size-tokens.js";

/** A number with the unit behind it, if there is one. */
export interface SizeTerm {
  readonly expression: string;
  readonly unit: LengthUnit | null;
}

/** A part of a typed size. A length has one term, or feet and inches. */
export type SizePart =
  | { readonly kind: "length"; readonly terms: readonly SizeTerm[] }
  | { readonly kind: "unit"; readonly unit: LengthUnit }
  | { readonly kind: "operator"; readonly sign: string };

function termAt(tokens: readonly SizeToken[], index: number): SizeTerm | null {
  const [value, unit] = tokens.slice(index, index + 2);
  if (value?.kind !== "value") return null;
  return { expression: value.expression, unit: unit?.kind === "unit" ? unit.unit : null };
}

/** Joins numbers with their units, and feet with the inches behind them: `1' 2"` is one length, `1 ft 2` is not. */
export function sizeParts(tokens: readonly SizeToken[]): readonly SizePart[] {
  const parts: SizePart[] = [];
  let taken = 0;
  tokens.forEach((token, index) => {
    if (index < taken) return;
    const term = termAt(tokens, index);
    if (term === null) {
      if (token.kind !== "value") parts.push(token);
      return;
    }
    const inches = term.unit === "ft" ? termAt(tokens, index + 2) : null;
    const terms = inches?.unit === "inch" ? [term, inches] : [term];
    parts.push({ kind: "length", terms });
    taken = index + terms.reduce((count, { unit }) => count + (unit === null ? 1 : 2), 0);
  });
  return parts;
}
