export { type CellEdit, editCells } from "./batch-edits.js";
export { calculateWorkbook } from "./calculator/calculate-workbook.js";
export type * from "./calculator/source.js";
export { createModel, type SheetData, type WorkbookData } from "./create-model.js";
export { engineSpelling } from "./engine-spelling.js";
export {
  evaluateFormula,
  type FormulaResult,
  type GivenContent,
  type ResultCell,
  typedContent,
} from "./evaluate-formula.js";
