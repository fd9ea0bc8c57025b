export { openAddin } from "../../src/tools/excel-bridge/open-addin.js";
export type { ExcelBridge } from "../../src/tools/excel-bridge/open-bridge.js";
export type { BridgeWindow, RichRequest } from "../../src/tools/excel-bridge/page-side.js";
