import type { UnitSystemName } from "../../core/index.js";
import type { ListColumnKey, ReadingHeading, ReadingState } from "./columns.js";

/** What one column of a sheet holds, as a person said or agreed to. */
export type MappedColumn = {
  /** From 1. */
  readonly column: number;
  /** Of its figures, where that is not the unit system of the row. */
  readonly units?: UnitSystemName;
} & (
  | { readonly key: ListColumnKey }
  | {
      readonly key: "reading";
      readonly state: ReadingState;
      readonly holds: ReadingHeading["holds"];
    }
);

/**
 * Says which columns of a sheet make a list of outlets whose headings nobody but its owner knows.
 *
 * A workbook keeps it beside its sheets; the finder takes it as it takes headings, and nothing behind it asks how a
 * list was found.
 */
export interface ColumnMapping {
  readonly sheet: string;
  /** The last row of the headings; outlets begin below it. */
  readonly headerRow: number;
  /** The last row that may hold outlets; null for as far as the sheet goes. */
  readonly lastRow: number | null;
  readonly columns: readonly MappedColumn[];
}
