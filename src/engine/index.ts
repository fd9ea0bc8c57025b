export { type CellEdit, editCells } from "./batch-edits.js";
export { calculateXlsx, type KeptFormula, type XlsxCalculation } from "./calculate-xlsx.js";
export { calculateWorkbook } from "./calculator/calculate-workbook.js";
export type * from "./calculator/source.js";
export { createModel, DATA_VERSION, type SheetData, type WorkbookData } from "./create-model.js";
export { engineSpelling } from "./engine-spelling.js";
export { evaluateFormula, type FormulaResult, type ResultCell } from "./evaluate-formula.js";
export { type GivenContent, typedContent } from "./typed-content.js";
export { watchChanges } from "./watch-changes.js";
