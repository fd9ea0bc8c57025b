import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";

const run = promisify(execFile);

/** Gnumeric writes numbers whole into the newer of its two forms of .xlsx. */
const XLSX = "Gnumeric_Excel:xlsx2";

async function convert(folder: string, name: string, bytes: Uint8Array): Promise<Uint8Array> {
  const [input, output] = [join(folder, `${name}.xlsx`), join(folder, `${name}-calculated.xlsx`)];
  writeFileSync(input, bytes);
  try {
    await run("ssconvert", ["--recalc", `--export-type=${XLSX}`, input, output], { timeout: 170_000 });
  } catch (cause) {
    const isMissing = (cause as NodeJS.ErrnoException).code === "ENOENT";
    const help = "Install it (on Debian or Ubuntu: apt-get install gnumeric) and try again.";
    throw new Error(isMissing ? `Gnumeric's ssconvert was not found. ${help}` : `Gnumeric refused ${name}.`, { cause });
  }
  return readFileSync(output);
}

/** Opens workbooks in Gnumeric, calculates all of them anew, and returns what it saves, under the same names. */
export async function recalculatedByGnumeric(
  files: ReadonlyMap<string, Uint8Array>,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-gnumeric-"));
  try {
    const calculated = new Map<string, Uint8Array>();
    for (const [name, bytes] of files) calculated.set(name, await convert(folder, name, bytes));
    return calculated;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
