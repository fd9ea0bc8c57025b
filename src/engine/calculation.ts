/** What calculates formulas and needs no screen: the door for files and the command line, which start without the page's library. */
export { calculateXlsx, type KeptFormula, type XlsxCalculation } from "./calculate-xlsx.js";
export { calculatedResults, calculatedSource } from "./calculated-source.js";
export { evaluateFormula, type FormulaResult, type ResultCell } from "./evaluate-formula.js";
export { patchAndCalculate } from "./patch-and-calculate.js";
export { startWorkbook, usualPaper } from "./start-workbook.js";
