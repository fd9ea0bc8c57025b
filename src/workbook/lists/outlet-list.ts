import type { UnitSystemName } from "../../core/index.js";
import type { SheetSource, SourceTable } from "../source/index.js";
import type { StatedForRows } from "./column-mapping.js";
import type { ListColumnKey, ReadingHeading, ReadingState } from "./columns.js";

/** The columns for single readings of one state. */
export interface ReadingColumns {
  readonly state: ReadingState;
  readonly holds: Exclude<ReadingHeading["holds"], "seconds">;
  /** In the order of their numbers. */
  readonly columns: readonly number[];
  /** The columns for the seconds of each sweep, beside `columns`; none where readings are no sweeps. */
  readonly seconds: readonly number[];
}

/** Which of our sheets a list comes from, by its columns; "own" is a list that somebody made for himself. */
export type ListForm = "job summary" | "room balance" | "face sweep" | "before and after" | "own";

/** A list of outlets on a sheet: one row per outlet below its headings. */
export interface OutletList {
  readonly source: SheetSource;
  readonly sheet: string;
  readonly form: ListForm;
  readonly foundBy: "headings" | "mapping";
  readonly headerRow: number;
  /** From the first to the last column that may belong to it: another list may be beside it. */
  readonly firstColumn: number;
  readonly lastColumn: number;
  /** The last row that may belong to it: another list begins below, or the sheet ends. */
  readonly lastRow: number;
  /** From 1. */
  readonly columns: ReadonlyMap<ListColumnKey, number>;
  readonly readings: readonly ReadingColumns[];
  /** Unit systems that headings name, by column. */
  readonly columnUnits: ReadonlyMap<number, UnitSystemName>;
  /** Times a figure of the column gives it in the base unit of its system, where it is in another: m³/h, in², cm. */
  readonly columnScales: ReadonlyMap<number, number>;
  /** What counts for every row that does not say it. */
  readonly stated: StatedForRows;
  /** The spreadsheet program's own table under the headings. */
  readonly table: SourceTable | undefined;
}

/** The columns for the readings of a state. */
export function readingsOf({ readings }: OutletList, state: ReadingState): ReadingColumns | undefined {
  return readings.find((columns) => columns.state === state);
}

/** How far a column is from the columns of a list; 0 among them. */
const apart = ({ firstColumn, lastColumn }: OutletList, column: number) =>
  Math.max(firstColumn - column, column - lastColumn, 0);

/** The list to which a cell belongs: of lists side by side the one whose columns it is among, or nearest to. */
export function listAt<List extends OutletList>(
  lists: readonly List[],
  { row, column }: { readonly row: number; readonly column: number },
): List | undefined {
  const here = lists.filter(({ headerRow, lastRow }) => row > headerRow && row <= lastRow);
  return [...here].sort((one, other) => apart(one, column) - apart(other, column))[0];
}
