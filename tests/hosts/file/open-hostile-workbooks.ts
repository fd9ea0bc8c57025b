// Run by a test in a process of its own, so that its memory can be measured: opens every file that is named.
import { openWorkbookFile } from "../../../src/hosts/file/index.js";
import { readSheet } from "../../../src/xlsx/index.js";

const messages: string[] = [];
for (const path of process.argv.slice(2)) {
  try {
    const { workbook } = await openWorkbookFile(path);
    for (const { name } of workbook.sheets) readSheet(workbook, name);
    messages.push("");
  } catch (error) {
    messages.push(error instanceof Error ? error.message : String(error));
  }
  // Each file is measured for itself: what the last one left behind is none of the next one's.
  globalThis.gc?.();
}
console.log(JSON.stringify({ messages, peakMegabytes: process.resourceUsage().maxRSS / 1024 }));
