import { execFile } from "node:child_process";
import { accessSync, constants, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { promisify } from "node:util";

const run = promisify(execFile);

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
    "LibreOffice was not found, and these tests recalculate workbooks with it. Install it (on Debian or Ubuntu: apt-get install libreoffice-calc) and run them again.",
  );
}

/** Whether LibreOffice calculates every formula anew on loading, or shows the results that a file stores. */
const RECALCULATION = { always: 0, never: 1 } as const;

function settings(recalculation: keyof typeof RECALCULATION): string {
  return `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>${RECALCULATION[recalculation]}</value></prop></item>
</oor:items>
`;
}

/** Converts documents into .xlsx in one run, with a profile of its own that is thrown away. */
async function convert(
  files: ReadonlyMap<string, Uint8Array>,
  ending: "xlsx" | "fods",
  recalculation: keyof typeof RECALCULATION,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-libreoffice-"));
  try {
    const profile = join(folder, "profile", "user");
    mkdirSync(profile, { recursive: true });
    writeFileSync(join(profile, "registrymodifications.xcu"), settings(recalculation));
    const inputs = [...files].map(([name, bytes]) => {
      const input = join(folder, `${name}.${ending}`);
      writeFileSync(input, bytes);
      return input;
    });
    const output = join(folder, "out");
    const installation = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const { stderr } = await run(
      findLibreOffice(),
      ["--headless", "--norestore", installation, "--convert-to", "xlsx", "--outdir", output, ...inputs],
      { timeout: 170_000 },
    );
    return new Map([...files.keys()].map((name) => [name, converted(join(output, `${name}.xlsx`), stderr)]));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function converted(path: string, said: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (cause) {
    throw new Error(`LibreOffice did not write ${path}. ${said}`, { cause });
  }
}

/** Opens workbooks in LibreOffice, calculates all of them anew, and returns what it saves, under the same names. */
export function recalculated(files: ReadonlyMap<string, Uint8Array>): Promise<ReadonlyMap<string, Uint8Array>> {
  return convert(files, "xlsx", "always");
}

/** Opens workbooks in LibreOffice as they are, and returns what it saves: the results that it found, and its own parts. */
export function reopened(files: ReadonlyMap<string, Uint8Array>): Promise<ReadonlyMap<string, Uint8Array>> {
  return convert(files, "xlsx", "never");
}

/** Has LibreOffice make workbooks out of flat documents (.fods). */
export function madeByLibreOffice(flat: ReadonlyMap<string, Uint8Array>): Promise<ReadonlyMap<string, Uint8Array>> {
  return convert(flat, "fods", "never");
}
