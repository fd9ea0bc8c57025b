export { type CalculatedResults, fileSource } from "./file-source.js";
export { hostSource } from "./host-source.js";
export { type ShownCell, shownCell, shownText } from "./shown-cell.js";
export type * from "./workbook-source.js";
