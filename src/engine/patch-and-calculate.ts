import {
  changedPlaces,
  openWorkbook,
  type PatchOptions,
  patchWorkbook,
  type Workbook,
  type WorkbookEdit,
} from "../xlsx/index.js";
import { calculateXlsx, type XlsxCalculation } from "./calculate-xlsx.js";

/** A workbook's new file, its results up to date, and what calculating it told. */
export interface PatchedFile {
  readonly bytes: Uint8Array;
  readonly calculation: XlsxCalculation;
}

/**
 * Applies edits to a workbook, calculates what depends on them, and returns the new file. Every part that neither an edit
 * nor a result concerns stays byte for byte.
 *
 * @throws {WorkbookFileError} When an edit would harm the workbook
 */
export function patchAndCalculate(
  workbook: Workbook,
  edits: readonly WorkbookEdit[],
  options: PatchOptions = {},
): PatchedFile {
  const { fileName, archive } = workbook;
  const edited = openWorkbook(patchWorkbook(workbook, edits, options), fileName, archive.codec);
  const calculation = calculateXlsx(edited, changedPlaces(edits));
  return { bytes: patchWorkbook(edited, calculation.edits, options), calculation };
}
