import { type FormulaToken, type Reference, readReference, scanFormula } from "../../../xlsx/index.js";
import { type FormulaCall, type FormulaPart, splitCalls } from "../../handoff/split-calls.js";

/** Cells that a formula names: by a reference, relative to the formula's own cell, or by a defined name. */
export type Operand = { readonly reference: Reference } | { readonly name: string };

/** A function of the spreadsheet program over cells, such as COUNT(B2:B9). */
export interface NativeCall {
  readonly name: string;
  readonly operands: readonly Operand[];
}

/** A stretch of formula text and what was found in it, calls of ours included. */
export interface ParsedText {
  readonly text: string;
  /** Every reference, in order. */
  readonly operands: readonly Operand[];
  /** The calls of ours that stand directly in it. */
  readonly calls: readonly ParsedCall[];
  /** The native functions of NATIVE that stand in it. */
  readonly natives: readonly NativeCall[];
  /** References beside a multiplication sign. */
  readonly multiplied: readonly Operand[];
  /** Calls of ours beside a multiplication sign. */
  readonly multipliedCalls: readonly ParsedCall[];
  /** A quotient of two references, as a percent of design is often written. */
  readonly quotients: readonly { readonly over: Operand; readonly under: Operand }[];
}

/** One argument of a call. */
export interface ParsedArgument extends ParsedText {
  /** The reference that is the whole argument. */
  readonly only: Operand | undefined;
  /** The number, text or truth value that is the whole argument. */
  readonly literal: number | string | boolean | undefined;
  readonly isOmitted: boolean;
}

/** One call of our functions. */
export interface ParsedCall {
  readonly id: string;
  readonly arguments: readonly ParsedArgument[];
}

const NATIVE = new Set(["COUNT", "COUNTA", "AVERAGE", "AVERAGEA", "MEDIAN"]);

type Piece =
  | { readonly kind: "operand"; readonly operand: Operand; readonly text: string }
  | { readonly kind: "call"; readonly call: ParsedCall; readonly text: string }
  | { readonly kind: "token"; readonly token: FormulaToken; readonly text: string };

const TRUTHS: Readonly<Record<string, boolean>> = { TRUE: true, FALSE: false };

/** Joins tokens to references: a sheet before an exclamation mark, a cell, a colon and a second cell. */
function readPieces(tokens: readonly FormulaToken[], row: number, column: number): readonly Piece[] {
  const pieces: Piece[] = [];
  let at = 0;
  const isPlace = (token: FormulaToken | undefined) =>
    token?.kind === "cell" || token?.kind === "columns" || token?.kind === "rows";
  while (at < tokens.length) {
    const token = tokens[at] as FormulaToken;
    const isExternal = pieces.at(-1)?.text.startsWith("[") === true;
    const hasSheet = (token.kind === "sheet" || token.kind === "name") && tokens[at + 1]?.text === "!";
    const start = hasSheet ? at + 2 : at;
    const place = tokens[start];
    let end = start;
    if (isPlace(place)) end = start + 1;
    if (place?.kind === "cell" && tokens[end]?.text === ":" && tokens[end + 1]?.kind === "cell") end += 2;
    if (end > start && !isExternal) {
      const text = tokens
        .slice(at, end)
        .map((piece) => piece.text)
        .join("");
      const reference = readReference(text, row, column);
      if (reference === undefined) pieces.push({ kind: "token", token, text });
      else pieces.push({ kind: "operand", operand: { reference }, text });
      at = end;
      continue;
    }
    const isName = token.kind === "name" && tokens[at + 1]?.text !== "(" && !hasSheet && !isExternal;
    if (isName && TRUTHS[token.text.toUpperCase()] === undefined) {
      pieces.push({ kind: "operand", operand: { name: token.text }, text: token.text });
    } else pieces.push({ kind: "token", token, text: token.text });
    at += 1;
  }
  return pieces;
}

function piecesOf(parts: readonly FormulaPart[], row: number, column: number): readonly Piece[] {
  const pieces: Piece[] = [];
  let plain = "";
  const flush = () => {
    if (plain !== "") pieces.push(...readPieces(scanFormula(plain), row, column));
    plain = "";
  };
  for (const part of parts) {
    if (typeof part === "string") plain += part;
    else {
      flush();
      const call = parsedCall(part, row, column);
      pieces.push({ kind: "call", call, text: `VANE.${call.id}(…)` });
    }
  }
  flush();
  return pieces;
}

const isBlank = ({ text }: Piece) => /^\s*$/.test(text);

function nativesIn(pieces: readonly Piece[]): readonly NativeCall[] {
  return pieces.flatMap((piece, index) => {
    if (piece.kind !== "token" || pieces[index + 1]?.text !== "(") return [];
    const name = piece.text.toUpperCase();
    if (!NATIVE.has(name)) return [];
    const operands: Operand[] = [];
    let depth = 0;
    for (const inner of pieces.slice(index + 1)) {
      if (inner.text === "(") depth += 1;
      if (inner.text === ")") depth -= 1;
      if (inner.kind === "operand") operands.push(inner.operand);
      if (depth === 0) break;
    }
    return [{ name, operands }];
  });
}

function parsedText(pieces: readonly Piece[]): ParsedText {
  const solid = pieces.filter((piece) => !isBlank(piece));
  const beside = (at: number) => solid[at - 1]?.text === "*" || solid[at + 1]?.text === "*";
  const calls = solid.flatMap((piece) => (piece.kind === "call" ? [piece.call] : []));
  return {
    text: pieces
      .map(({ text }) => text)
      .join("")
      .trim(),
    operands: solid.flatMap((piece) => {
      if (piece.kind === "operand") return [piece.operand];
      return piece.kind === "call" ? piece.call.arguments.flatMap(({ operands }) => operands) : [];
    }),
    calls,
    natives: nativesIn(solid),
    multiplied: solid.flatMap((piece, at) => (piece.kind === "operand" && beside(at) ? [piece.operand] : [])),
    multipliedCalls: solid.flatMap((piece, at) => (piece.kind === "call" && beside(at) ? [piece.call] : [])),
    quotients: solid.flatMap((piece, at) => {
      const [over, under] = [solid[at - 1], solid[at + 1]];
      if (piece.text !== "/" || over?.kind !== "operand" || under?.kind !== "operand") return [];
      return [{ over: over.operand, under: under.operand }];
    }),
  };
}

function literalOf(solid: readonly Piece[]): ParsedArgument["literal"] {
  const [first, second] = solid;
  if (first?.kind !== "token" || solid.length > 2) return undefined;
  if (solid.length === 2 && (first.text === "-" || first.text === "+")) {
    const size = second?.kind === "token" && second.token.kind === "number" ? Number(second.text) : Number.NaN;
    return Number.isNaN(size) ? undefined : Number(`${first.text}1`) * size;
  }
  if (solid.length > 1) return undefined;
  if (first.token.kind === "number") return Number(first.text);
  if (first.token.kind === "text") return first.text.slice(1, -1).replaceAll('""', '"');
  return TRUTHS[first.text.toUpperCase()];
}

function parsedArgument(parts: readonly FormulaPart[], row: number, column: number): ParsedArgument {
  const pieces = piecesOf(parts, row, column);
  // An @ before a reference takes the cell of the same row, which the reference then stands for.
  const solid = pieces.filter((piece) => !isBlank(piece) && piece.text !== "@");
  const [first] = solid;
  return {
    ...parsedText(pieces),
    only: solid.length === 1 && first?.kind === "operand" ? first.operand : undefined,
    literal: literalOf(solid),
    isOmitted: solid.length === 0,
  };
}

function parsedCall({ id, parts }: FormulaCall, row: number, column: number): ParsedCall {
  return { id, arguments: parts.map((part) => parsedArgument(part, row, column)) };
}

/**
 * Reads what the checks need of a formula: the calls of our functions with their arguments, and the cells it names.
 *
 * @param formula - Without the equals sign, in either spelling, without references to tables
 * @param row - Of the cell that holds it
 * @param column - Of the cell that holds it
 */
export function parseFormula(formula: string, row: number, column: number): ParsedText {
  return parsedText(piecesOf(splitCalls(formula), row, column));
}

/** Every call of a formula, those inside another call's arguments too. */
export function allCalls({ calls }: ParsedText): readonly ParsedCall[] {
  return calls.flatMap((call) => [call, ...call.arguments.flatMap(allCalls)]);
}

/** Every stretch of a formula, arguments of calls included. */
export function allTexts(parsed: ParsedText): readonly ParsedText[] {
  return [parsed, ...parsed.calls.flatMap((call) => call.arguments.flatMap(allTexts))];
}
