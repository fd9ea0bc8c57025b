export { type RolledUpFiles, rollUpFiles } from "./roll-up-files.js";
export { writeCsv, writeParquet } from "./write-outlets.js";
