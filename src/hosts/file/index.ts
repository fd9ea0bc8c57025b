export { type FileHost, fileHost } from "./file-host.js";
export type { FileIdentity } from "./file-identity.js";
export { openLogFile } from "./open-log-file.js";
export { openTemplate } from "./open-template.js";
export { openWorkbookFile, type WorkbookFile } from "./open-workbook-file.js";
export { saveWorkbookCopy, saveWorkbookFile } from "./save-workbook-file.js";
export { writeTarget } from "./write-target.js";
export { zlibCodec } from "./zlib-codec.js";
