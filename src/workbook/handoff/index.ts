export type { HandoffCell } from "./handoff-cell.js";
export { type HandoffFormula, handoffFormula, notedValue } from "./handoff-formula.js";
export { type Handoff, handoffOf } from "./handoff-workbook.js";
export { TRANSLATIONS } from "./translations.js";
