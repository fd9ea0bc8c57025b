import type { CellRange } from "./address.js";
import type { CellTable } from "./read/cell-table.js";
import type { Workbook } from "./workbook.js";

/** A cell that shows an error, such as #N/A. */
export interface CellError {
  readonly error: string;
}

/** What a cell holds or shows; null when it is blank. Dates are numbers, as the spreadsheet program keeps them. */
export type CellValue = number | string | boolean | CellError | null;

/** How a formula is stored. */
export interface CellFormula {
  /**
   * plain; shared: one of a block that stores its formula once; array: fills `range`, dynamic arrays included;
   * dataTable: a what-if table, which has no text.
   */
  readonly kind: "plain" | "shared" | "array" | "dataTable";
  /**
   * As the file spells it, without the equals sign; for a shared formula, moved to this cell. Empty for a data table and
   * where the file lacks the text that is shared.
   */
  readonly text: string;
  /** The cells that an array formula or data table fills. */
  readonly range: CellRange | undefined;
  /** Whether an array formula is a dynamic one, which finds its own size. */
  readonly isDynamic: boolean;
  /** For a shared formula, the cell that stores it; formulas with the same one have the same relative form. */
  readonly storedAt: { readonly row: number; readonly column: number } | undefined;
}

/** One cell. */
export interface Cell {
  readonly row: number;
  readonly column: number;
  readonly address: string;
  /** The stored value; for a formula the result that was last calculated. */
  readonly value: CellValue;
  readonly formula: CellFormula | undefined;
  /** Index into the workbook's styles. */
  readonly style: number;
}

/** A rule on what may be typed into some cells. */
export interface DataValidation {
  readonly ranges: readonly CellRange[];
  /** whole, decimal, list, date, time, textLength, custom or none */
  readonly type: string;
  readonly operator: string;
  readonly formula1: string;
  readonly formula2: string;
  readonly allowsBlank: boolean;
  /** What becomes of an entry that breaks the rule: refused, let stand after a warning, or let stand. */
  readonly severity: "stop" | "warning" | "information";
  /** Shown while one of the cells is selected; empty for none. */
  readonly prompt: { readonly title: string; readonly text: string };
  /** What to say of an entry that breaks the rule; empty to leave it to the program. */
  readonly refusal: { readonly title: string; readonly text: string };
}

/**
 * What a filter lets be seen, by the places of its columns, counted from 0: the texts of the cells in view, "" for empty
 * ones; null for a criterion of another kind, such as a comparison or the ten highest.
 */
export type FilterChoices = ReadonlyMap<number, readonly string[] | null>;

/** A table (a named block with a header row) on a sheet. */
export interface Table {
  readonly name: string;
  readonly partName: string;
  readonly range: CellRange;
  readonly headerRows: number;
  readonly totalsRows: number;
  readonly columns: readonly { readonly name: string; readonly calculatedFormula: string | undefined }[];
  /** The rows among which its filter chooses; undefined while it chooses none. */
  readonly filteredRange: CellRange | undefined;
  /** What its filter lets be seen, by the places of its columns. */
  readonly choices: FilterChoices;
}

/** A note or the comments on a cell. */
export interface Comment {
  readonly address: string;
  readonly author: string;
  readonly text: string;
}

/** A worksheet that has been read. */
export interface Sheet {
  readonly name: string;
  readonly partName: string;
  readonly workbook: Workbook;
  readonly cells: CellTable;
  readonly mergedRanges: readonly CellRange[];
  readonly validations: readonly DataValidation[];
  readonly isProtected: boolean;
  readonly tables: readonly Table[];
  readonly comments: readonly Comment[];
  /** Blocks in which a filter chooses rows, headings left out. */
  readonly filteredRanges: readonly CellRange[];
  readonly layout: SheetLayout;
}

/** Places in the sheet's part, in bytes, that a change of its cells touches. */
export interface SheetLayout {
  /** Prefix of the part's elements with its colon, "" for none. */
  readonly prefix: string;
  /** The dimension element, when there is one. */
  readonly dimension:
    | { readonly range: CellRange | undefined; readonly start: number; readonly end: number }
    | undefined;
  readonly sheetData: {
    readonly start: number;
    readonly openEnd: number;
    readonly closeStart: number;
    readonly end: number;
  };
  /** Styles of whole columns. */
  readonly columnStyles: readonly { readonly first: number; readonly last: number; readonly style: number }[];
}
