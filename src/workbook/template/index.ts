export { addBeforeAfter, visitValues } from "./before-after/fill-visits.js";
export { missingInWords, type Visits, visitsOf } from "./before-after/from-visits.js";
export type { DemoJob } from "./demonstration/demo-job.js";
export { DEMONSTRATION_FILE, demonstrationEntries, demonstrationPlan } from "./demonstration/demonstration.js";
export { type FilledCells, type FilledRow, jobEntries, numbered, tableEntries } from "./fill-plan.js";
export { JOB_NAMES, JOB_SHEET, jobCell, jobSheet } from "./job-sheet.js";
export {
  JOB_SUMMARY_COLUMNS,
  JOB_SUMMARY_SHEET,
  JOB_SUMMARY_TABLE,
  type JobSummaryColumn,
  type JobSummaryKey,
} from "./job-summary/columns.js";
export { jobSummary } from "./job-summary/job-summary.js";
export { quotedSheet } from "./plan-parts.js";
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
export { chosenOptions, isAsItsFile, type TemplateChoices, templateChoices } from "./template-choices.js";
export {
  BALANCE_BLOCKS,
  type BalanceBlock,
  MOST_POINTS,
  type TemplateOptions,
} from "./template-options.js";
export { MOST_ROWS, SIZED_TABLES, type SizedThing, sizedTemplate, type TemplateSizes } from "./template-sizes.js";
export { TEMPLATES } from "./templates.js";
