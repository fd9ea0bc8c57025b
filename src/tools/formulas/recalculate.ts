import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { findLibreOffice, recalculationSettings } from "../libreoffice.js";

const KNOWN_ERRORS = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"]);

/** Errors of a program's own, `Err:508`, become #VALUE!, and numbers beyond all that a file can hold the largest, so that it can be read. */
function readable(bytes: Uint8Array): Uint8Array {
  const parts = unzipSync(bytes);
  for (const [name, part] of Object.entries(parts)) {
    if (!name.startsWith("xl/worksheets/sheet")) continue;
    const xml = strFromU8(part).replace(
      /(<c [^>]*t="e"[^>]*>(?:(?!<\/c>).)*?<v>)([^<]*)(<\/v>)/gs,
      (whole, before: string, error: string, after: string) =>
        KNOWN_ERRORS.has(error) ? whole : `${before}#VALUE!${after}`,
    );
    parts[name] = strToU8(
      xml.replace(/<v>([^<]*e\+[^<]*)<\/v>/g, (whole, number: string) =>
        Number.isFinite(Number(number)) ? whole : "<v>1e308</v>",
      ),
    );
  }
  return zipSync(parts, { level: 1 });
}

function inFolder(work: (folder: string) => Uint8Array): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), "vanesheet-judge-"));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Opens a workbook in LibreOffice, calculates all of it anew, and returns what it saves. */
export function recalculatedByLibreOffice(bytes: Uint8Array): Uint8Array {
  return inFolder((folder) => {
    mkdirSync(join(folder, "profile", "user"), { recursive: true });
    writeFileSync(join(folder, "profile", "user", "registrymodifications.xcu"), recalculationSettings("always"));
    writeFileSync(join(folder, "book.xlsx"), bytes);
    const installation = `-env:UserInstallation=file://${join(folder, "profile")}`;
    const args = [
      "--headless",
      "--norestore",
      installation,
      "--convert-to",
      "xlsx",
      "--outdir",
      join(folder, "out"),
      join(folder, "book.xlsx"),
    ];
    execFileSync(findLibreOffice(), args, { stdio: "ignore", timeout: 170_000 });
    return readable(readFileSync(join(folder, "out", "book.xlsx")));
  });
}

/** The same by Gnumeric. */
export function recalculatedByGnumeric(bytes: Uint8Array): Uint8Array {
  return inFolder((folder) => {
    writeFileSync(join(folder, "book.xlsx"), bytes);
    const args = ["--recalc", "-T", "Gnumeric_Excel:xlsx2", join(folder, "book.xlsx"), join(folder, "out.xlsx")];
    execFileSync("ssconvert", args, { stdio: "ignore", timeout: 170_000 });
    return readable(readFileSync(join(folder, "out.xlsx")));
  });
}
