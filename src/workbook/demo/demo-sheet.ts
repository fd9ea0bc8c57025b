/** What a cell is for, from which a page takes its colours. */
export type Look =
  | "title"
  | "lead"
  | "section"
  | "label"
  | "paragraph"
  | "header"
  | "input"
  | "inputText"
  | "result"
  | "resultText"
  | "total"
  | "totalText";

/** How a number is shown, as a spreadsheet program spells it. */
export type NumberFormat = "0" | "0%" | "#,##0" | "0.00" | "0.000";

export interface LookRange {
  readonly range: string;
  readonly look: Look;
  readonly format?: NumberFormat;
}

/** What an input may hold, and whether another entry is refused or only marked. */
export type Accepts =
  | { readonly range: string; readonly list: readonly string[] }
  | { readonly range: string; readonly from: number; readonly to: number };

/** One sheet of the demonstration as plain data. A content that begins with "=" is a formula. */
export interface DemoSheet {
  readonly name: string;
  readonly cells: Readonly<Record<string, string>>;
  readonly looks: readonly LookRange[];
  readonly accepts: readonly Accepts[];
  /** Ranges whose cells hold a verdict in a word. */
  readonly verdicts: readonly string[];
  readonly merges: readonly string[];
  /** In pixels, from column A. */
  readonly widths: readonly number[];
  readonly frozenRows: number;
  readonly frozenColumns: number;
}

/** Returns a value as a cell's content; what is not known stays an empty cell. */
export function content(value: number | string | null): string {
  return value === null ? "" : String(value);
}

/** Returns the cells of a row, from a column on. */
export function rowCells(row: number, columns: string, contents: readonly string[]): Record<string, string> {
  const cells = contents.map((text, index) => [`${columns[index]}${row}`, text] as const);
  return Object.fromEntries(cells.filter(([, text]) => text !== ""));
}

/** Words of the job's verdicts, written by native formulas on the unrounded airflow, limits included. */
export function verdictFormula(measured: string, design: string): string {
  const off = (limit: string) => `ROUND(${measured}-${design}*${limit},9)`;
  return `IF(${off("(1-Limit_minus/100)")}<0,"low",IF(${off("(1+Limit_plus/100)")}>0,"high","within"))`;
}
