export type { CalculatedCell, CalculatedValues, Entries } from "./calculated-values.js";
export { place } from "./place.js";
export { writeReport } from "./write-report.js";
export { type Calculate, writeTemplate } from "./write-template.js";
export { escapedXml } from "./xml-text.js";
