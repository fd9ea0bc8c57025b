/**
 * A piece of a formula.
 *
 * text: "in quotes"; sheet: 'in quotes'; bracket: [with all that is in it], as in table and external references;
 * cell: $B7; columns: A:$C; rows: 1:$9; name: a function, sheet, table or defined name; other: one character.
 */
export interface FormulaToken {
  readonly kind: "text" | "sheet" | "bracket" | "error" | "cell" | "columns" | "rows" | "name" | "number" | "other";
  readonly text: string;
}

const PIECES = new RegExp(
  [
    '("(?:[^"]|"")*"?)',
    "('(?:[^']|'')*'?)",
    "(#[A-Z][A-Z0-9/_]*[!?]?)",
    String.raw`(\$?[A-Za-z]{1,3}\$?\d{1,7}(?![\p{L}\p{N}_.(!\\?]))`,
    String.raw`(\$?[A-Za-z]{1,3}:\$?[A-Za-z]{1,3}(?![\p{L}\p{N}_.(!$\\?]))`,
    String.raw`(\$?\d{1,7}:\$?\d{1,7}(?![\p{L}\p{N}_.$]))`,
    String.raw`([\p{L}_\\][\p{L}\p{N}_.\\?]*)`,
    String.raw`(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?)`,
    "([^])",
  ].join("|"),
  "uy",
);

/** The kinds that the alternatives of the expression give, in their order: quicker to ask for than groups by name. */
const KINDS = ["text", "sheet", "error", "cell", "columns", "rows", "name", "number", "other"] as const;

function kindOf(match: RegExpExecArray): FormulaToken["kind"] {
  for (let group = 0; group < KINDS.length; group += 1) {
    if (match[group + 1] !== undefined) return KINDS[group] as FormulaToken["kind"];
  }
  return "other";
}

/**
 * Cuts a formula into pieces; joined again they are the formula. It tells references and names from text, no more: it is
 * no parser and accepts anything.
 */
export function scanFormula(formula: string): readonly FormulaToken[] {
  const tokens: FormulaToken[] = [];
  let at = 0;
  while (at < formula.length) {
    if (formula[at] === "[") {
      const end = bracketEnd(formula, at);
      tokens.push({ kind: "bracket", text: formula.slice(at, end) });
      at = end;
      continue;
    }
    PIECES.lastIndex = at;
    const match = PIECES.exec(formula);
    const text = match?.[0] ?? (formula[at] as string);
    tokens.push({ kind: match === null ? "other" : kindOf(match), text });
    at += text.length;
  }
  return tokens;
}

/** Brackets nest; within them an apostrophe takes the meaning from the next character. */
function bracketEnd(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at += 1) {
    const letter = formula[at];
    if (letter === "'") at += 1;
    else if (letter === "[") depth += 1;
    else if (letter === "]") depth -= 1;
    if (depth === 0) return at + 1;
  }
  return formula.length;
}
