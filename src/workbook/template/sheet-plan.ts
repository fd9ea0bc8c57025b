import type { TemplateId } from "../host.js";
import type { FormatName, StyleName } from "./style.js";

/** What stands in a cell. A text that begins with "=" is a formula as a person types it; null is an empty cell. */
export type CellContent = number | string | boolean | null;

/** One cell of a sheet. */
export interface CellPlan {
  readonly at: string;
  readonly content: CellContent;
  readonly style: StyleName;
  readonly format: FormatName;
  /** True where the result is a block that fills the cells below or beside. */
  readonly spills: boolean;
}

/** What stands in a cell of a row that is made while it is written: a formula comes with what it shows. */
export type RowContent = number | string | null | { readonly formula: string; readonly result: number | string | null };

/** One of many rows alike. */
export interface RowPlan {
  readonly contents: readonly RowContent[];
  /** In points; null where it fits itself. */
  readonly height: number | null;
}

/** The rows of a long table, which are made one after the other while they are written. */
export interface RowsPlan {
  readonly firstRow: number;
  readonly count: number;
  /** How the cells look, from column A. */
  readonly looks: readonly Pick<CellPlan, "style" | "format">[];
  readonly rows: () => Iterable<RowPlan>;
}

/** What an input cell accepts. A bound that is null does not bind. */
export type ValidationRule =
  | { readonly kind: "list"; readonly values: readonly string[] }
  | { readonly kind: "list from"; readonly range: string }
  | { readonly kind: "number"; readonly minimum: number | null; readonly maximum: number | null }
  | { readonly kind: "whole number"; readonly minimum: number; readonly maximum: number }
  | { readonly kind: "date" }
  | { readonly kind: "text"; readonly longest: number };

export interface ValidationPlan {
  readonly range: string;
  readonly rule: ValidationRule;
  /** Shown beside the cell while it is selected. */
  readonly input: { readonly title: string; readonly message: string };
  /** Shown when an entry breaks the rule; "advise" lets the entry stand. */
  readonly error: { readonly title: string; readonly message: string; readonly severity: "stop" | "advise" };
}

/** How cells look when their content calls for it. Formulas are relative to the first cell of the range. */
export type ConditionalFormatPlan =
  | { readonly kind: "word"; readonly range: string; readonly word: string; readonly style: StyleName }
  | { readonly kind: "formula"; readonly range: string; readonly formula: string; readonly style: StyleName }
  | {
      readonly kind: "scale" /** One or more blocks, spaces between. */;
      readonly range: string;
      readonly lowColor: string;
      readonly highColor: string;
    };

export interface TableColumnPlan {
  readonly name: string;
  /** The formula of the first data row, which every other row repeats row-relative; null for an input column. */
  readonly formula: string | null;
}

/** A table that sorts and filters; its header row is the first row of the range. */
export interface TablePlan {
  readonly name: string;
  readonly range: string;
  readonly columns: readonly TableColumnPlan[];
}

export interface ChartSeriesPlan {
  readonly name: string;
  /** With its sheet: `Outlets!$T$8:$T$47`. */
  readonly values: string;
}

/** Bars by category, with lines across them for the limits. */
export interface ChartPlan {
  readonly title: string;
  readonly categories: string;
  readonly bars: readonly ChartSeriesPlan[];
  readonly lines: readonly ChartSeriesPlan[];
  readonly categoryAxisTitle: string;
  readonly valueAxisTitle: string;
  /** Corner cells of the space that the chart covers. */
  readonly from: string;
  readonly to: string;
  /** What the picture shows, for a person who cannot see it. */
  readonly description: string;
}

export interface PrintPlan {
  readonly orientation: "landscape" | "portrait";
  readonly area: string;
  /** Rows repeated at the top of each page, `6:7`; null where none repeat. */
  readonly repeatedRows: string | null;
  readonly fitToPagesHigh: number | null;
  /** For a sheet too wide for one legible page; one page wide where it is left out. */
  readonly sideBySide?: PagesSideBySide;
  /** The last rows of pages that end before they are full, so that a heading is not alone at a page's foot. */
  readonly breakBelow?: readonly number[];
}

/** Pages beside one another, each at the same scale. */
export interface PagesSideBySide {
  /** The last columns of all pages but the last. */
  readonly breakAfter: readonly string[];
  /** Columns repeated on every page, `A:A`, so that a row is known by its name; null where none repeat. */
  readonly repeatedColumns: string | null;
  readonly scalePercent: number;
}

/**
 * "job" is the same sheet in every template and stands once in a workbook; "work" is filled; "notes" explains; "report"
 * shows results that nobody fills in.
 */
export type SheetRole = "job" | "work" | "notes" | "report";

/**
 * One sheet as plain data.
 *
 * Every sheet but a report is protected without a password: cells whose style is an input are unlocked, the rest is locked, and
 * filters, sorting, formats and widths stay allowed.
 */
export interface SheetPlan {
  readonly name: string;
  readonly role: SheetRole;
  readonly tabColor: string;
  /** Widths in characters, from column A. */
  readonly columnWidths: readonly number[];
  /** Heights in points, by row; rows that are left out fit themselves. */
  readonly rowHeights: Readonly<Record<number, number>>;
  readonly cells: readonly CellPlan[];
  /** Rows below all of `cells`; null where there are none. */
  readonly rows: RowsPlan | null;
  readonly merges: readonly string[];
  readonly frozen: { readonly rows: number; readonly columns: number };
  readonly tables: readonly TablePlan[];
  readonly validations: readonly ValidationPlan[];
  readonly conditionalFormats: readonly ConditionalFormatPlan[];
  readonly charts: readonly ChartPlan[];
  readonly print: PrintPlan;
}

/** A name of the workbook and the cell or block that it stands for: `Job!$B$5`. */
export interface NamePlan {
  readonly name: string;
  readonly refersTo: string;
}

/** A whole workbook, from which a host makes sheets or a file. */
export interface WorkbookPlan {
  readonly title: string;
  readonly description: string;
  readonly sheets: readonly SheetPlan[];
  readonly names: readonly NamePlan[];
}

/** A whole template. */
export interface TemplatePlan extends WorkbookPlan {
  readonly template: TemplateId;
}
