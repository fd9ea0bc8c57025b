export type { HandoffCell } from "./handoff-cell.js";
export { type HandoffFormula, handoffFormula, notedValue } from "./handoff-formula.js";
export { type Handoff, handoffOf, plainFormulasOf } from "./handoff-workbook.js";
export { isOneValueFormula } from "./one-value-formula.js";
export { TRANSLATIONS } from "./translations.js";
