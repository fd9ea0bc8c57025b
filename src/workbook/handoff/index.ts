export type { HandoffName } from "./calling-names.js";
export { cellBlocks } from "./cell-blocks.js";
export type { Handoff } from "./handoff.js";
export type { HandoffCell } from "./handoff-cell.js";
export { type FormulaHome, type HandoffFormula, handoffFormula, notedValue } from "./handoff-formula.js";
export { handoffOf, plainFormulasOf } from "./handoff-workbook.js";
export { isOneValueFormula } from "./one-value-formula.js";
export { NO_PLACES } from "./places.js";
export { TRANSLATIONS } from "./translations.js";
