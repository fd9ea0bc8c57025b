export type { TemplateBytes } from "./add-template.js";
export { type ExcelHost, excelHost } from "./excel-host.js";
