export { JOB_NAMES, JOB_SHEET, jobCell, jobSheet } from "./job-sheet.js";
export { roomBalance } from "./room-balance/room-balance.js";
export * from "./sheet-plan.js";
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
