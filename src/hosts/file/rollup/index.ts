export { requireFreePart } from "./part-names.js";
export { type RolledUpFiles, rollUpFiles } from "./roll-up-files.js";
