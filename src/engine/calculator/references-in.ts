import { type FormulaToken, scanFormula } from "../../xlsx/index.js";

const isPlace = (token: FormulaToken | undefined): token is FormulaToken =>
  token?.kind === "cell" || token?.kind === "columns" || token?.kind === "rows";

/** The sheet named before a reference, `Rooms!` or `'My rooms'!`; null where another workbook is named. */
function sheetBefore(tokens: readonly FormulaToken[], index: number): string | null {
  if (tokens[index - 1]?.text !== "!") return "";
  const sheet = tokens[index - 2];
  const isOwn = sheet?.kind === "name" || (sheet?.kind === "sheet" && !sheet.text.includes("["));
  return isOwn && tokens[index - 3]?.kind !== "bracket" ? `${sheet.text}!` : null;
}

/**
 * Returns the references to cells in a formula that nothing here can compile: enough to know what it depends on.
 *
 * @example
 * referencesIn("SUBTOTAL(109,Rooms!A1:B9)+C$2") // => ["Rooms!A1:B9", "C$2"]
 */
export function referencesIn(formula: string): readonly string[] {
  const tokens = scanFormula(formula);
  const references: string[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const token = tokens[index];
    if (!isPlace(token)) continue;
    const sheet = sheetBefore(tokens, index);
    const end = tokens[index + 1]?.text === ":" ? tokens[index + 2] : undefined;
    if (isPlace(end)) index += 2;
    if (sheet !== null) references.push(sheet + token.text + (isPlace(end) ? `:${end.text}` : ""));
  }
  return references;
}

/** Returns the names in a formula that may stand for cells. */
export function namesIn(formula: string): readonly string[] {
  const tokens = scanFormula(formula);
  return tokens.flatMap(({ kind, text }, index) =>
    kind === "name" && tokens[index + 1]?.text !== "(" && tokens[index + 1]?.text !== "!" ? [text] : [],
  );
}
