import type { BlockAddress } from "../host.js";

/** Tables of the templates that take a measurement in a row, told by their headers. */
export type KnownTable = "outlets" | "sweeps" | "changes";

/** A row of a known table. */
export interface RowPlace {
  readonly kind: "row";
  readonly table: KnownTable;
  readonly sheet: string;
  readonly row: number;
  /** Column numbers by header. */
  readonly columns: ReadonlyMap<string, number>;
  /** The outlet's tag in this row, "" where none stands. */
  readonly tag: string;
  /** For a table of before and after: which readings the selected cell stands for. */
  readonly phase: "before" | "after";
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
