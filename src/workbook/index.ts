export { ADDIN_ID } from "./addin-id.js";
export * from "./host.js";
export * from "./template/index.js";
