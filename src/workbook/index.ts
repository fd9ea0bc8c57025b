export { ADDIN_ID } from "./addin-id.js";
export * from "./host.js";
export * from "./template/index.js";
export { evaluateWorkings } from "./workings/evaluate-workings.js";
export { addTradeUnits, type UnitMath } from "./workings/unit-math.js";
