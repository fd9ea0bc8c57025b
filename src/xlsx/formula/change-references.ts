import { type FormulaToken, scanFormula } from "./scan-formula.js";

/** The row or the column of a corner of a reference. */
export interface ReferenceRow {
  readonly row: number;
  /** Whether a dollar sign holds it. */
  readonly isFixed: boolean;
}

/** A reference to cells as a formula spells it. Whole columns have no rows, whole rows no columns. */
export interface FoundReference {
  /** As the workbook spells the sheet, without quotes; undefined where the formula names none. */
  readonly sheet: string | undefined;
  /** The last of several sheets, as in `Jan:Mar!A1`. */
  readonly lastSheet: string | undefined;
  /** The columns of each corner with their dollar signs; empty for whole rows. */
  readonly columns: readonly string[];
  /** The rows of each corner; none for whole columns. */
  readonly rows: readonly ReferenceRow[];
}

/**
 * What becomes of a reference: other sheets before it, other rows; "lost" where its cells are gone, "gone" where its sheet
 * is.
 */
export type ReferenceChange =
  | "lost"
  | "gone"
  | {
      readonly sheet?: string;
      readonly lastSheet?: string | undefined;
      readonly rows?: readonly ReferenceRow[];
    };

const PLAIN_SHEET = /^[\p{L}_][\p{L}\p{N}_.]*$/u;
const LIKE_A_CELL = /^(?:[A-Za-z]{1,3}\d+|R\d*C?\d*|C\d*|TRUE|FALSE)$/i;

/**
 * Spells the sheets before a reference, in quotes where they need them.
 *
 * @example
 * sheetPrefix("By room") // => "'By room'!"
 */
export function sheetPrefix(sheet: string, lastSheet?: string): string {
  const names = lastSheet === undefined || lastSheet === sheet ? [sheet] : [sheet, lastSheet];
  const text = names.join(":");
  const isPlain = names.every((name) => PLAIN_SHEET.test(name) && !LIKE_A_CELL.test(name));
  return isPlain ? `${text}!` : `'${text.replaceAll("'", "''")}'!`;
}

interface Prefix {
  readonly sheet: string;
  readonly lastSheet: string | undefined;
  /** How many tokens it takes. */
  readonly length: number;
  readonly text: string;
}

function textOf(tokens: readonly FormulaToken[]): string {
  return tokens.map(({ text }) => text).join("");
}

/** The sheets that are named at a place. */
function prefixAt(tokens: readonly FormulaToken[], at: number): Prefix | undefined {
  const first = tokens[at] as FormulaToken;
  const second = tokens[at + 1];
  if (second?.text === "!") {
    if (first.kind === "sheet") {
      const [sheet = "", lastSheet] = first.text.slice(1, -1).replaceAll("''", "'").split(":");
      return { sheet, lastSheet, length: 2, text: `${first.text}!` };
    }
    if (first.kind === "name") return { sheet: first.text, lastSheet: undefined, length: 2, text: `${first.text}!` };
  }
  if (second?.text !== ":" || tokens[at + 3]?.text !== "!" || !isNameLike(first)) return undefined;
  const third = tokens[at + 2];
  if (third === undefined || !isNameLike(third)) return undefined;
  return { sheet: first.text, lastSheet: third.text, length: 4, text: textOf(tokens.slice(at, at + 4)) };
}

function isNameLike({ kind }: FormulaToken): boolean {
  return kind === "name" || kind === "cell";
}

interface Body {
  readonly columns: readonly string[];
  readonly rows: readonly ReferenceRow[];
  readonly length: number;
}

const CELL = /^(\$?[A-Za-z]{1,3})(\$?)(\d+)$/;

function rowOf(text: string): ReferenceRow {
  const isFixed = text.startsWith("$");
  return { row: Number(isFixed ? text.slice(1) : text), isFixed };
}

function cornerOf(text: string): { readonly column: string; readonly row: ReferenceRow } | undefined {
  const match = CELL.exec(text);
  if (match === null) return undefined;
  return { column: match[1] as string, row: { row: Number(match[3]), isFixed: match[2] === "$" } };
}

function bodyAt(tokens: readonly FormulaToken[], at: number): Body | undefined {
  const first = tokens[at];
  if (first?.kind === "columns") return { columns: first.text.split(":"), rows: [], length: 1 };
  if (first?.kind === "rows") return { columns: [], rows: first.text.split(":").map(rowOf), length: 1 };
  if (first?.kind !== "cell") return undefined;
  const corner = cornerOf(first.text);
  if (corner === undefined) return undefined;
  const third = tokens[at + 2];
  const isBlock = tokens[at + 1]?.text === ":" && third?.kind === "cell" && tokens[at + 3]?.text !== "!";
  if (!isBlock) return { columns: [corner.column], rows: [corner.row], length: 1 };
  const other = cornerOf(third.text);
  if (other === undefined) return undefined;
  return { columns: [corner.column, other.column], rows: [corner.row, other.row], length: 3 };
}

function spell(columns: readonly string[], rows: readonly ReferenceRow[]): string {
  const corners = rows.length === 0 ? columns : rows.map(({ row, isFixed }) => `${isFixed ? "$" : ""}${row}`);
  if (rows.length === 0 || columns.length === 0) return corners.join(":");
  return corners.map((row, index) => `${columns[index]}${row}`).join(":");
}

/** Whether what stands before makes it a name or a place of another workbook, or of a sheet that is gone. */
function isElsewhere(tokens: readonly FormulaToken[], at: number): boolean {
  const before = tokens[at - 1];
  return before?.kind === "bracket" || before?.kind === "error" || before?.text === "!";
}

/** Whether a name, or the mark of a lost place, comes next: where its sheet is gone, so is it. */
function isLostWithSheet(token: FormulaToken | undefined): boolean {
  return token?.kind === "name" || token?.kind === "error";
}

/** Pieces with which a reference may begin. */
const MAY_BEGIN: ReadonlySet<FormulaToken["kind"]> = new Set(["sheet", "cell", "columns", "rows", "name"]);

/**
 * Returns a formula in which references to cells are changed; texts, names, tables, and what lies in other workbooks stay.
 *
 * @param formula - Without the equals sign
 * @param change - Says what becomes of a reference; undefined leaves it as it is spelled. A name with its sheet before it,
 *   such as `Rooms!Loads`, is asked for as a reference without rows and columns
 */
export function changeReferences(
  formula: string,
  change: (reference: FoundReference) => ReferenceChange | undefined,
): string {
  const tokens = scanFormula(formula);
  let result = "";
  let at = 0;
  while (at < tokens.length) {
    const token = tokens[at] as FormulaToken;
    if (!MAY_BEGIN.has(token.kind)) {
      result += token.text;
      at += 1;
      continue;
    }
    const prefix = prefixAt(tokens, at);
    const start = at + (prefix?.length ?? 0);
    const isOutside = isElsewhere(tokens, at) || prefix?.text.includes("[") === true;
    const body = isOutside ? undefined : bodyAt(tokens, start);
    if (isOutside || (prefix === undefined && body === undefined)) {
      const end = prefix === undefined ? at + 1 : start;
      result += textOf(tokens.slice(at, end));
      at = end;
      continue;
    }
    const { columns, rows, length } = body ?? { columns: [], rows: [], length: 0 };
    const end = start + length;
    const changed = change({ sheet: prefix?.sheet, lastSheet: prefix?.lastSheet, columns, rows });
    const spelled = textOf(tokens.slice(start, end));
    at = end;
    if (changed === undefined) result += (prefix?.text ?? "") + spelled;
    else if (changed === "lost") result += `${prefix?.text ?? ""}#REF!`;
    else if (changed === "gone") {
      result += "#REF!";
      if (body === undefined && isLostWithSheet(tokens[at])) at += 1;
    } else {
      result += changed.sheet === undefined ? (prefix?.text ?? "") : sheetPrefix(changed.sheet, changed.lastSheet);
      result += changed.rows === undefined ? spelled : spell(columns, changed.rows);
    }
  }
  return result;
}
