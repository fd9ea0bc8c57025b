import { ADDIN_ID } from "../../workbook/index.js";

/** Returns how to show Excel an add-in that is served from this computer, on every system. */
export function sideloadHelp(manifest: string): string {
  return [
    `The manifest: ${manifest}`,
    "",
    "Excel on Windows: close Excel, run this once in a command prompt, and open Excel again:",
    `  reg add "HKCU\\Software\\Microsoft\\Office\\16.0\\WEF\\Developer" /v ${ADDIN_ID} /t REG_SZ /d "${manifest}" /f`,
    "  To remove it: the same with “reg delete …\\Developer” /v and the id.",
    "Excel on a Mac: copy the manifest into this folder (make it where it is missing), then Home > Add-ins:",
    "  ~/Library/Containers/com.microsoft.Excel/Data/Documents/wef",
    "Excel on the web: Home > Add-ins > More add-ins > My add-ins > Upload my add-in, and choose the manifest.",
    "",
    "Then type =VANE. in a cell, or press the button Vanesheet on the Home tab.",
    "docs/excel-acceptance.md goes through everything in a quarter of an hour.",
  ].join("\n");
}
