export { JOB_NAMES, JOB_SHEET, jobCell, jobSheet } from "./job-sheet.js";
export { lettersOf, quotedSheet } from "./plan-parts.js";
export { roomBalance } from "./room-balance/room-balance.js";
export * from "./sheet-plan.js";
export { storedFormula } from "./stored-formula.js";
export {
  FONT_NAME,
  FONT_SIZE,
  FORMATS,
  type FormatName,
  PALETTE,
  STYLES,
  type StyleName,
  type StyleSpec,
} from "./style.js";
export { TEMPLATES } from "./templates.js";
