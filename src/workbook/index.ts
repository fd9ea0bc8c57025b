export { ADDIN_ID } from "./addin-id.js";
export type { DemoJob } from "./demo/demo-job.js";
export type { DemoSheet, Look, LookRange } from "./demo/demo-sheet.js";
export { DEMO_PLACES, type DemoWorkbook, demoWorkbook } from "./demo/demo-workbook.js";
export * from "./host.js";
export * from "./repair/index.js";
export * from "./template/index.js";
export { evaluateWorkings } from "./workings/evaluate-workings.js";
export { addTradeUnits, type UnitMath } from "./workings/unit-math.js";
