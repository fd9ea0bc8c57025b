export * from "./address.js";
export { type Appending, appendWorkbook } from "./append/append-workbook.js";
export { type FormulaPlace, formulaPlaces } from "./append/formula-places.js";
export type * from "./drawing/chart.js";
export type * from "./drawing/drawing.js";
export { readDrawings } from "./drawing/read-drawings.js";
export { moveFormula } from "./formula/move-formula.js";
export { cellsMeant, type Reference, readReference } from "./formula/reference.js";
export { relativeForm } from "./formula/relative-form.js";
export { type FormulaToken, scanFormula } from "./formula/scan-formula.js";
export { callsFunction, type FunctionSpelling, readableFormula, storedFormula } from "./formula/spelling.js";
export { type FormulaCell, type PlacedTable, withoutTableReferences } from "./formula/table-references.js";
export { HostError } from "./host-error.js";
export { joinedBytes } from "./joined-bytes.js";
export { WORKBOOK_LIMITS } from "./limits.js";
export { type BorderLook, type CellLook, PLAIN_LOOK, SIDES, type Side, type WorkbookLooks } from "./look/cell-look.js";
export { readLooks } from "./look/read-looks.js";
export { readSheetLook } from "./look/read-sheet-look.js";
export type { ConditionalRule, SheetLook } from "./look/sheet-look.js";
export { changedPlaces } from "./patch/changed-places.js";
export type * from "./patch/edits.js";
export { filterEdits, type TableFilter } from "./patch/filter-edits.js";
export { nameEdits } from "./patch/name-edits.js";
export { type Paper, paperEdits } from "./patch/paper-edits.js";
export { type PatchOptions, patchWorkbook } from "./patch/patch-workbook.js";
export {
  cellAt,
  cellAtPosition,
  cellsIn,
  cellsOf,
  formulaCellsOf,
  formulasOf,
  hasFormulaAt,
  valueAt,
} from "./read/cells.js";
export { dateSerial, isoDate } from "./read/date-serial.js";
export { type RowState, rowStateAt } from "./read/filters.js";
export { openWorkbook } from "./read/open-workbook.js";
export { findSheetEntry, readSheet } from "./read/read-sheet.js";
export { type CellStyle, type NumberKind, numberKindOf, PLAIN_STYLE } from "./read/styles.js";
export { requireFileSize } from "./require-file-size.js";
export type * from "./sheet.js";
export { type AddedSheet, addSheet } from "./structure/add-sheet.js";
export {
  deleteRows,
  extendTable,
  findTable,
  growTable,
  insertRows,
  type SheetRows,
  type TableRows,
} from "./structure/change-rows.js";
export { changeStructure, type StructureEdit } from "./structure/change-structure.js";
export { copySheet } from "./structure/copy-sheet.js";
export { deleteSheet, dependentsOfSheet, type SheetDependent } from "./structure/delete-sheet.js";
export { moveSheet } from "./structure/move-sheet.js";
export { renameSheet } from "./structure/rename-sheet.js";
export { sheetNameProblem } from "./structure/sheets-common.js";
export { sortTable, type TableOrder } from "./structure/sort-table.js";
export type { OutdatedCell, Restructured } from "./structure/structure-context.js";
export type { DefinedName, SheetEntry, SheetVisibility, Workbook } from "./workbook.js";
export { WorkbookFileError, type WorkbookFileErrorCode } from "./workbook-file-error.js";
export { type ArchiveCodec, OverLimitError, packingLevel, portableCodec } from "./zip/codec.js";
