import type { PatchOptions } from "../patch/patch-workbook.js";
import type { Workbook } from "../workbook.js";
import {
  deleteRows,
  extendTable,
  growTable,
  insertRows,
  type JoiningRows,
  type SheetRows,
  type TableRows,
} from "./change-rows.js";
import { copySheet } from "./copy-sheet.js";
import { deleteSheet } from "./delete-sheet.js";
import { moveSheet } from "./move-sheet.js";
import { renameSheet } from "./rename-sheet.js";
import { sortTable, type TableOrder } from "./sort-table.js";
import type { Restructured } from "./structure-context.js";

/** A change of rows or sheets as data, so that it can be asked for from afar. */
export type StructureEdit =
  | ({ readonly kind: "insertRows" | "deleteRows" } & SheetRows)
  | ({ readonly kind: "growTable" } & TableRows)
  | ({ readonly kind: "extendTable" } & JoiningRows)
  | ({ readonly kind: "sortTable" } & TableOrder)
  | { readonly kind: "renameSheet"; readonly sheet: string; readonly name: string }
  | { readonly kind: "moveSheet"; readonly sheet: string; readonly to: number }
  | { readonly kind: "copySheet"; readonly sheet: string }
  | { readonly kind: "deleteSheet"; readonly sheet: string };

/**
 * Carries one change of rows or sheets out.
 *
 * @param workbook - As opened; it stays as it is
 * @throws {WorkbookFileError} Where something cannot follow, before anything is changed
 */
export function changeStructure(workbook: Workbook, edit: StructureEdit, options: PatchOptions = {}): Restructured {
  switch (edit.kind) {
    case "insertRows":
      return insertRows(workbook, edit, options);
    case "deleteRows":
      return deleteRows(workbook, edit, options);
    case "growTable":
      return growTable(workbook, edit, options);
    case "extendTable":
      return extendTable(workbook, edit, options);
    case "sortTable":
      return sortTable(workbook, edit, options);
    case "renameSheet":
      return renameSheet(workbook, edit, options);
    case "moveSheet":
      return moveSheet(workbook, edit, options);
    case "copySheet":
      return copySheet(workbook, edit, options);
    case "deleteSheet":
      return deleteSheet(workbook, edit, options);
  }
}
