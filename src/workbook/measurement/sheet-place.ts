import type { BlockAddress } from "../host.js";
import type { OutletList, ReadingState } from "../lists/index.js";

/** A row of a list of outlets whose formulas make an airflow of readings. */
export interface RowPlace {
  readonly kind: "row";
  readonly list: OutletList;
  readonly row: number;
  /** The outlet's tag in this row, "" where none stands. */
  readonly tag: string;
  /** Which readings the selected cell stands for. */
  readonly state: ReadingState;
  /** Whether its airflow is typed, not calculated, as every airflow of the list is. */
  readonly isTyped: boolean;
}

/** A sheet that holds one duct traverse. */
export interface TraverseSheetPlace {
  readonly kind: "traverse sheet";
  readonly sheet: string;
}

/** A cell with nothing in it, from which a block of its own may start. */
export interface EmptyPlace {
  readonly kind: "empty cell";
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** Where a measurement can be put, or why nowhere. */
export type SheetPlace =
  | RowPlace
  | TraverseSheetPlace
  | EmptyPlace
  | { readonly kind: "none"; readonly reason: string };

/** Names a selected block as a person reads it. */
export function shownBlock({ sheet, range }: BlockAddress): string {
  return `${range} on sheet “${sheet}”`;
}
