import { cellFunctions, storedName, typedName } from "../cells/index.js";

const TYPED_NAMES: ReadonlyMap<string, string> = new Map(
  cellFunctions.map((declaration) => [storedName(declaration).toUpperCase(), typedName(declaration)]),
);

/** A text in quotes, in which Excel doubles a quote; everything between two texts. */
const PARTS = /"(?:[^"]|"")*"|[^"]+/g;

function outsideText(part: string): string {
  return part
    .replace(/_xldudf_VANE_[A-Z0-9_]+/gi, (name) => TYPED_NAMES.get(name.toUpperCase()) ?? name)
    .replace(/_xlfn\.(?:_xlws\.)?|_xlpm\./gi, "")
    .replace(/#N\/A/gi, "NA()");
}

/** The engine knows no quote inside a text and takes a backslash for one, so both are joined by their number. */
function insideText(part: string): string {
  const text = part.slice(1, -1);
  if (!/"|\\/.test(text)) return part;
  const pieces = text.split(/(""|\\)/).filter((piece) => piece !== "");
  return `(${pieces.map((piece) => (piece === '""' ? "CHAR(34)" : piece === "\\" ? "CHAR(92)" : `"${piece}"`)).join("&")})`;
}

/** Returns a formula as the engine reads it, from what a person types or what Excel stores in a file. */
export function engineSpelling(formula: string): string {
  return formula.replace(PARTS, (part) =>
    part.startsWith('"') && part.length > 1 ? insideText(part) : outsideText(part),
  );
}
