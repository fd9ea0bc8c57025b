export { type CalculatedResults, fileSource } from "./file-source.js";
export { hostSource, namesOf } from "./host-source.js";
export { layoutOf } from "./layout-of.js";
export { type ShownCell, shownCell, shownText } from "./shown-cell.js";
export { tablesOf } from "./tables-of.js";
export type * from "./workbook-source.js";
