import { cellFunctions, storedName, typedName } from "../../cells/index.js";
import { type FormulaToken, scanFormula } from "../../xlsx/formula/scan-formula.js";

/** One call of ours within a formula, its arguments as formula text in which inner calls may stand. */
export interface FormulaCall {
  readonly id: string;
  readonly parts: readonly (readonly FormulaPart[])[];
}

/** Text that stays as it is, or a call. */
export type FormulaPart = string | FormulaCall;

const IDS: ReadonlyMap<string, string> = new Map(
  cellFunctions.flatMap((declaration) => [
    [typedName(declaration).toUpperCase(), declaration.id] as const,
    [storedName(declaration).toUpperCase(), declaration.id] as const,
  ]),
);

/** The id of the function that is called at a token; undefined where none of ours is. */
function calledAt(tokens: readonly FormulaToken[], at: number): string | undefined {
  const token = tokens[at];
  if (token?.kind !== "name" || tokens[at + 1]?.text !== "(") return undefined;
  return IDS.get(token.text.toUpperCase());
}

const OPENING = new Set(["(", "{"]);
const CLOSING = new Set([")", "}"]);

interface Read {
  readonly parts: readonly FormulaPart[];
  readonly next: number;
}

/** Reads parts up to a comma or bracket that closes what is around them. */
function readParts(tokens: readonly FormulaToken[], start: number, endsAtComma: boolean): Read {
  const parts: FormulaPart[] = [];
  let depth = 0;
  let at = start;
  while (at < tokens.length) {
    const token = tokens[at] as FormulaToken;
    if (depth === 0 && endsAtComma && (token.text === "," || CLOSING.has(token.text))) break;
    const id = calledAt(tokens, at);
    if (id !== undefined) {
      const call = readArguments(tokens, at + 2, id);
      parts.push(call.call);
      at = call.next;
      continue;
    }
    if (OPENING.has(token.text)) depth += 1;
    if (CLOSING.has(token.text)) depth -= 1;
    parts.push(token.text);
    at += 1;
  }
  return { parts, next: at };
}

function readArguments(
  tokens: readonly FormulaToken[],
  start: number,
  id: string,
): { readonly call: FormulaCall; readonly next: number } {
  const parts: (readonly FormulaPart[])[] = [];
  let at = start;
  for (;;) {
    const read = readParts(tokens, at, true);
    parts.push(read.parts);
    at = read.next + 1;
    if (tokens[read.next]?.text !== ",") return { call: { id, parts }, next: at };
  }
}

/** Splits a formula, stored or typed, into the calls of our functions and the text between them. */
export function splitCalls(formula: string): readonly FormulaPart[] {
  return readParts(scanFormula(formula), 0, false).parts;
}
