import { calculateXlsx, type XlsxCalculation } from "../engine/calculation.js";
import { holdsMisspelled } from "../workbook/repair/misspelled.js";
import { openWorkbook, patchWorkbook, type Workbook } from "../xlsx/index.js";
import { type Command, EXIT, onePositional, UsageError } from "./command.js";
import { OUTPUT_OPTIONS, type OutputFile, openToChange, saveChanged, workbookOutput } from "./output-file.js";
import { type Report, withProgress } from "./progress.js";
import { counted, printCalculation } from "./workbook-report.js";

/** What became of the file. */
interface Calculated extends XlsxCalculation {
  /** The file that holds the results now; null when nothing was written. */
  readonly saved: string | null;
  /** Other names of that file, hard links elsewhere, which keep the old content. */
  readonly namesWithOldContent: number;
  /** How many formulas were spelled as Excel stores them. */
  readonly respelledCount: number;
}

/** A workbook with its formulas spelled as Excel stores them, where some are not. */
async function respelled(workbook: Workbook): Promise<{ readonly workbook: Workbook; readonly count: number }> {
  if (!holdsMisspelled(workbook)) return { workbook, count: 0 };
  const { respelledFormulas } = await import("../workbook/repair/index.js");
  const edits = respelledFormulas(workbook);
  const { fileName, archive } = workbook;
  return { workbook: openWorkbook(patchWorkbook(workbook, edits), fileName, archive.codec), count: edits.length };
}

async function calculateFile(
  path: string,
  output: OutputFile | undefined,
  writes: boolean,
  keepsSpelling: boolean,
  report: Report,
): Promise<Calculated> {
  const file = await openToChange(path, output);
  const { workbook, count: respelledCount } =
    writes && !keepsSpelling ? await respelled(file.workbook) : { workbook: file.workbook, count: 0 };
  const calculation = calculateXlsx(workbook, [], (done, total) => report(done, total, "calculating"));
  const isSame = calculation.edits.length === 0 && respelledCount === 0;
  if (!writes || (output === undefined && isSame)) {
    return { ...calculation, saved: null, namesWithOldContent: 0, respelledCount };
  }
  report(1, 1, "saving");
  const bytes = patchWorkbook(workbook, calculation.edits);
  const saved = await saveChanged(file, bytes, output);
  return { ...calculation, saved: saved.path, namesWithOldContent: saved.namesWithOldContent, respelledCount };
}

function fate({ saved, edits }: Calculated, output: OutputFile | undefined, writes: boolean): string {
  if (saved !== null) return output === undefined ? "Saved in place." : `Saved as ${output.path}.`;
  if (!writes) return "Nothing was written.";
  return edits.length === 0 ? "The file was up to date and stays as it was." : "";
}

function print(path: string, calculated: Calculated, output: OutputFile | undefined, writes: boolean): void {
  const { calculatedCount, edits } = calculated;
  const differ = writes ? "changed" : "would change";
  const results = `${counted(calculatedCount, "formula")} calculated, ${counted(edits.filter(({ isOutdated }) => isOutdated !== true).length, "result")} ${differ}.`;
  console.log(`${path}: ${results} ${fate(calculated, output, writes)}`);
  if (calculated.respelledCount > 0) {
    console.log(
      `${counted(calculated.respelledCount, "formula")} spelled as Excel stores them; as typed they show #NAME? there.`,
    );
  }
  const { namesWithOldContent: old } = calculated;
  if (old > 0) {
    console.log(
      `The file has ${counted(old, "other name")} (hard links) that could not be found or changed: the old content stays there.`,
    );
  }
  printCalculation(calculated);
}

export const calcCommand: Command = {
  usage: "FILE [-o OUT [--replace]] [--dry-run] [--keep-spelling] [--json]",
  help: [
    "Calculates the VANE formulas of a workbook and what depends on them, and saves it in place.",
    "Only results change; every other part of the file stays as it is, byte for byte. A VANE formula that is stored as",
    "it was typed is spelled as Excel stores it: otherwise Excel shows #NAME?, even with the add-in.",
    "",
    "  -o OUT      saves under another name instead; --replace lets it take the place of a file there",
    "  --dry-run   says what would change and writes nothing",
    "  --keep-spelling  leaves every formula as it is spelled",
    "  --json      prints the same as data, every cell listed",
    "",
    "Ends with status 1 when a result is an error or the file is refused.",
  ],
  options: {
    ...OUTPUT_OPTIONS,
    "dry-run": { type: "boolean" },
    "keep-spelling": { type: "boolean" },
    json: { type: "boolean" },
  },
  async run(args) {
    const path = onePositional(args, "FILE");
    const writes = args.options["dry-run"] !== true;
    const output = workbookOutput(args, path);
    if (output !== undefined && !writes) throw new UsageError("--dry-run writes nothing, so it takes no -o.");
    const keepsSpelling = args.options["keep-spelling"] === true;
    const calculated = await withProgress((report) => calculateFile(path, output, writes, keepsSpelling, report));
    if (args.options["json"] === true) {
      const { saved, namesWithOldContent, calculatedCount, edits, kept, errors } = calculated;
      const changed = edits
        .filter(({ isOutdated }) => isOutdated !== true)
        .map(({ sheet, address, value }) => ({ sheet, address, value }));
      console.log(
        JSON.stringify({ file: path, saved, namesWithOldContent, calculated: calculatedCount, changed, kept, errors }),
      );
    } else print(path, calculated, output, writes);
    return calculated.errors.length > 0 ? EXIT.found : EXIT.done;
  },
};
