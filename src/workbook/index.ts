export { ADDIN_ID } from "./addin-id.js";
export * from "./host.js";
