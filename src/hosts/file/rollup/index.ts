export { type RolledUpFiles, rollUpFiles } from "./roll-up-files.js";
