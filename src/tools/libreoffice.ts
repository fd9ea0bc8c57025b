import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

const USUAL_PLACES = [
  "/usr/lib/libreoffice/program",
  "/opt/libreoffice/program",
  "/Applications/LibreOffice.app/Contents/MacOS",
  "C:\\Program Files\\LibreOffice\\program",
];

function isExecutable(path: string): boolean {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Returns the path of LibreOffice's program. */
export function findLibreOffice(): string {
  const folders = [...(process.env["PATH"] ?? "").split(delimiter), ...USUAL_PLACES];
  const names = process.platform === "win32" ? ["soffice.exe"] : ["soffice", "libreoffice"];
  const found = folders.flatMap((folder) => names.map((name) => join(folder, name))).find(isExecutable);
  if (found !== undefined) return found;
  throw new Error(
    "LibreOffice was not found, which recalculates workbooks here to compare. Install it (on Debian or Ubuntu: apt-get install libreoffice-calc) and try again.",
  );
}

/** Whether LibreOffice calculates every formula anew on loading, or shows the results that a file stores. */
export type Recalculation = "always" | "never";

/** Returns what a profile of LibreOffice holds (user/registrymodifications.xcu) so that it recalculates or does not. */
export function recalculationSettings(recalculation: Recalculation): string {
  const mode = recalculation === "always" ? 0 : 1;
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>${mode}</value></prop></item>
</oor:items>
`;
}
