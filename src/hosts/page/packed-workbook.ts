import { type PackedCells, packedCells, unpackedCells } from "../../engine/index.js";
import type { ExportedSheet, ExportedWorkbook } from "./file/engine-export.js";

/** A workbook whose cells the browser's storage takes at once, instead of one by one. */
export interface PackedWorkbook extends Omit<ExportedWorkbook, "sheets"> {
  readonly sheets: readonly (Omit<ExportedSheet, "cells"> & { readonly cells: PackedCells })[];
}

const known = new WeakMap<ExportedWorkbook, PackedWorkbook>();

/** Packs a workbook in steps; what was packed before is not packed again. Nobody changes what is returned. */
export function* packedWorkbook(workbook: ExportedWorkbook): Generator<undefined, PackedWorkbook> {
  const before = known.get(workbook);
  if (before !== undefined) return before;
  const sheets = [];
  for (const sheet of workbook.sheets) sheets.push({ ...sheet, cells: yield* packedCells(sheet.cells) });
  const packed: PackedWorkbook = { ...workbook, sheets };
  known.set(workbook, packed);
  return packed;
}

/** Unpacks a workbook in steps; one that was never packed is as it is. */
export function* unpackedWorkbook(workbook: ExportedWorkbook | PackedWorkbook): Generator<undefined, ExportedWorkbook> {
  const sheets: ExportedSheet[] = [];
  // A workbook that nothing was put into has no list of sheets.
  for (const sheet of workbook.sheets ?? []) {
    sheets.push({ ...sheet, cells: yield* unpackedCells(sheet.cells) } as ExportedSheet);
  }
  return { ...workbook, ...(workbook.sheets === undefined ? {} : { sheets }) } as ExportedWorkbook;
}
