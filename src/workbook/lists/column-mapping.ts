import type { ListColumnKey, ReadingHeading, ReadingState } from "./columns.js";
import type { MappedUnitName } from "./mapped-unit.js";

/** What a title over outlets may name. */
export const TITLE_USES = ["system", "room"] as const;

export type TitleUse = (typeof TITLE_USES)[number];

/** What a column of a list may hold: what a list knows, or readings. */
export type ColumnContent =
  | { readonly key: ListColumnKey }
  | {
      readonly key: "reading";
      readonly state: ReadingState;
      readonly holds: ReadingHeading["holds"];
    };

/** What one column of a sheet holds, as a person said or agreed to. */
export type MappedColumn = ColumnContent & {
  /** From 1. */
  readonly column: number;
  /** Of its figures; null for words, and where nobody said. */
  readonly unit: MappedUnitName | null;
};

/** What counts for every row of a list that has no column for it, or leaves it empty. */
export interface StatedForRows {
  /** Free-area factor, above 0 and at most 1. */
  readonly factor?: number;
  /** A cell of the sheet that holds the factor of every outlet. */
  readonly factorCell?: { readonly row: number; readonly column: number };
  readonly kind?: string;
  /** What the titles over and between the outlets name, such as “AHU-2, second floor”. */
  readonly titles?: TitleUse;
}

/**
 * Says which columns of a sheet make a list of outlets whose headings nobody but its owner knows.
 *
 * A workbook keeps it beside its sheets, in hidden names (mapping-names.ts); the finder takes it as it takes headings,
 * and nothing behind it asks how a list was found.
 */
export interface ColumnMapping {
  /** Which of a workbook's lists it is, from 1. */
  readonly list: number;
  readonly sheet: string;
  /** The last row of the headings; outlets begin below it. */
  readonly headerRow: number;
  /** The last row that may hold outlets; null for as far as the sheet goes, or until the next headings. */
  readonly lastRow: number | null;
  readonly columns: readonly MappedColumn[];
  readonly stated: StatedForRows;
}
