export { checkHost } from "./check-host.js";
export type { CheckReport } from "./check-report.js";
export { checkWorkbook } from "./check-workbook.js";
export type * from "./source/checked-workbook.js";
export { checkedFile, type FreshResults } from "./source/from-file.js";
export { checkedHost } from "./source/from-host.js";
