import { type CellFunctionDeclaration, cellFunctions, typedName } from "../../cells/index.js";
import { scanFormula } from "../../xlsx/formula/scan-formula.js";
import { checkingUnits, WRONG } from "./formula-text.js";
import { type FormulaCall, type FormulaPart, splitCalls } from "./split-calls.js";
import type { CallArguments } from "./translation.js";
import { TRANSLATIONS } from "./translations.js";

/** What becomes of one formula in a hand-off copy. */
export type HandoffFormula =
  /** It calls none of our functions. */
  | { readonly kind: "unchanged" }
  | { readonly kind: "plain"; readonly formula: string; readonly functions: readonly string[] }
  /** No plain formula gives it: its value stays, and these functions are why. */
  | { readonly kind: "value"; readonly functions: readonly string[] };

/** Longest formula that a spreadsheet program takes. */
const LONGEST_FORMULA = 8192;

const DECLARATIONS: ReadonlyMap<string, CellFunctionDeclaration> = new Map(
  cellFunctions.map((declaration) => [declaration.id, declaration]),
);

/** Whether a text is a block of cells as a whole, and not an expression that works one out. */
function isBlockText(text: string): boolean {
  let depth = 0;
  for (const { kind, text: piece } of scanFormula(text)) {
    if (
      depth === 0 &&
      (kind === "columns" || kind === "rows" || kind === "bracket" || piece === ":" || piece === "{")
    ) {
      return true;
    }
    if (piece === "(") depth += 1;
    if (piece === ")") depth -= 1;
  }
  return false;
}

function argumentsOf(declaration: CellFunctionDeclaration, texts: readonly string[]): CallArguments {
  const text = (name: string) => {
    const index = declaration.parameters.findIndex((parameter) => parameter.name === name);
    if (index < 0) throw new Error(`${declaration.id} has no parameter ${name}.`);
    return texts[index] ?? "";
  };
  return { text, isBlock: (name) => isBlockText(text(name)) };
}

/** The plain text of a call, or null where it has to become its value. */
function plainCall(call: FormulaCall, texts: readonly string[]): string | null {
  const declaration = DECLARATIONS.get(call.id);
  const translation = TRANSLATIONS[call.id];
  if (declaration === undefined || translation === undefined || translation.kind === "value") return null;
  const given = argumentsOf(declaration, texts);
  const spills = declaration.parameters.some(({ name }) => !translation.blocks.includes(name) && given.isBlock(name));
  const text = spills ? null : translation.build(given);
  const takesUnits = declaration.parameters.some(({ name }) => name === "units");
  return text === null || !takesUnits ? text : checkingUnits(given.text("units"), text);
}

interface Written {
  readonly text: string;
  readonly functions: readonly string[];
  /** Functions for which there was no plain text. */
  readonly stuck: readonly string[];
}

function writeParts(parts: readonly FormulaPart[]): Written {
  const written = parts.map((part): Written => {
    if (typeof part === "string") return { text: part, functions: [], stuck: [] };
    const inner = part.parts.map(writeParts);
    const built = plainCall(
      part,
      inner.map(({ text }) => text.trim()),
    );
    // What is too long already grows with every call around it.
    const plain = built === null || built.length > LONGEST_FORMULA ? null : built;
    const functions = [part.id, ...inner.flatMap((argument) => argument.functions)];
    const stuck = inner.flatMap((argument) => argument.stuck);
    return { text: `(${plain ?? ""})`, functions, stuck: plain === null ? [part.id, ...stuck] : stuck };
  });
  return {
    text: written.map(({ text }) => text).join(""),
    functions: written.flatMap(({ functions }) => functions),
    stuck: written.flatMap(({ stuck }) => stuck),
  };
}

function named(ids: readonly string[]): readonly string[] {
  return [...new Set(ids)].flatMap((id) => {
    const declaration = DECLARATIONS.get(id);
    return declaration === undefined ? [] : [typedName(declaration)];
  });
}

/** Whether every bracket and every quote is closed: otherwise a piece of the formula means something else elsewhere. */
function isClosed(formula: string): boolean {
  const open: string[] = [];
  for (const { kind, text } of scanFormula(formula)) {
    if (kind === "text" && !/^"(?:[^"]|"")*"$/.test(text)) return false;
    if (kind === "sheet" && !/^'(?:[^']|'')*'$/.test(text)) return false;
    if (kind === "bracket" && !text.endsWith("]")) return false;
    if (text === "(" || text === "{") open.push(text === "(" ? ")" : "}");
    if ((text === ")" || text === "}") && open.pop() !== text) return false;
  }
  return open.length === 0;
}

/**
 * Puts a formula in plain words of any spreadsheet program.
 *
 * @param formula - As a file stores it or as a person types it, without the equals sign
 */
export function handoffFormula(formula: string): HandoffFormula {
  const parts = splitCalls(formula);
  if (parts.every((part) => typeof part === "string")) return { kind: "unchanged" };
  const { text, functions, stuck } = writeParts(parts);
  if (!isClosed(formula)) return { kind: "value", functions: named(functions) };
  if (stuck.length > 0) return { kind: "value", functions: named(stuck) };
  if (text.length > LONGEST_FORMULA) return { kind: "value", functions: named(functions) };
  return { kind: "plain", formula: text, functions: named(functions) };
}

/** Longest text within a formula. */
const LONGEST_TEXT = 255;

/** Longer texts are joined from pieces; doubled quotes still fit. */
const PIECE = 120;

/**
 * A formula that shows a value and says in the formula bar where it comes from.
 *
 * @param value - What the cell showed
 * @param functions - The functions that no plain formula replaces
 */
export function notedValue(
  value: number | string | boolean | { readonly error: string } | null,
  functions: readonly string[],
): string {
  const note = `Value of ${functions.join(", ")} when this copy was made; no plain formula gives it.`
    .replaceAll('"', "'")
    .slice(0, LONGEST_TEXT);
  if (typeof value === "number") return `${String(value).toUpperCase()}+0*LEN("${note}")`;
  if (typeof value === "boolean") return `AND(${value ? "TRUE" : "FALSE"},LEN("${note}")>0)`;
  if (value === null) return `LEFT("${note}",0)`;
  if (typeof value === "object") return `${value.error === "#N/A" ? "NA()" : WRONG}+0*LEN("${note}")`;
  const pieces = Array.from({ length: Math.max(1, Math.ceil(value.length / PIECE)) }, (_, index) =>
    value.slice(index * PIECE, (index + 1) * PIECE).replaceAll('"', '""'),
  );
  return `${pieces.map((piece) => `"${piece}"`).join("&")}&LEFT("${note}",0)`;
}
