import { execFile } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { findLibreOffice, type Recalculation, recalculationSettings } from "../../src/tools/libreoffice.js";

const run = promisify(execFile);

/** Converts documents into .xlsx in one run, with a profile of its own that is thrown away. */
async function convert(
  files: ReadonlyMap<string, Uint8Array>,
  ending: "xlsx" | "fods",
  recalculation: Recalculation,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-libreoffice-"));
  try {
    const profile = join(folder, "profile", "user");
    mkdirSync(profile, { recursive: true });
    writeFileSync(join(profile, "registrymodifications.xcu"), recalculationSettings(recalculation));
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
