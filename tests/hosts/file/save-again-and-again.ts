// Run by a test in a process of its own, which the test kills while it saves: puts ever new values into one workbook.
import { openWorkbookFile, saveWorkbookFile } from "../../../src/hosts/file/index.js";
import { patchWorkbook } from "../../../src/workbook/xlsx/index.js";

let file = await openWorkbookFile(process.argv[2] ?? "");
console.log("ready");
for (let value = 1; ; value += 1) {
  const edits = ["A1", "A2000"].map((address) => ({ kind: "value", sheet: "Sheet1", address, value }) as const);
  file = await saveWorkbookFile(file, patchWorkbook(file.workbook, edits));
}
