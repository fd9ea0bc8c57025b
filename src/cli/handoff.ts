import { calculateXlsx, type XlsxCalculation } from "../engine/calculation.js";
import { saveWorkbookCopy } from "../hosts/file/index.js";
import { cellBlocks, type Handoff, type HandoffCell, handoffOf } from "../workbook/index.js";
import { openWorkbook, patchWorkbook } from "../xlsx/index.js";
import { type Command, EXIT, onePositional, UsageError } from "./command.js";
import { OUTPUT_OPTIONS, type OutputFile, openToChange, workbookOutput } from "./output-file.js";
import { type Report, withProgress } from "./progress.js";
import { counted, printCalculation, printCells } from "./workbook-report.js";

interface HandedOff {
  readonly calculation: XlsxCalculation;
  readonly handoff: Handoff;
}

async function handOff(path: string, output: OutputFile, report: Report): Promise<HandedOff> {
  const file = await openToChange(path, output, "The hand-off copy is a file of its own: give it another name.");
  const calculation = calculateXlsx(file.workbook, [], (done, total) => report(done, total, "calculating"));
  report(0, 2, "replacing formulas");
  const { fileName, archive } = file.workbook;
  const calculated = openWorkbook(patchWorkbook(file.workbook, calculation.edits), fileName, archive.codec);
  const handoff = handoffOf(calculated);
  report(1, 2, "saving");
  await saveWorkbookCopy(output.path, patchWorkbook(calculated, handoff.edits), output.existing);
  return { calculation, handoff };
}

/** How many cells called each function, most first. */
function printFunctions(cells: readonly HandoffCell[]): void {
  const counts = new Map<string, number>();
  for (const name of cells.flatMap(({ functions }) => functions)) counts.set(name, (counts.get(name) ?? 0) + 1);
  for (const [name, count] of [...counts].sort(([, one], [, other]) => other - one)) {
    console.log(`  ${name}  ${counted(count, "cell")}`);
  }
}

function print(path: string, output: OutputFile, { calculation, handoff }: HandedOff): void {
  const { plain, values, names } = handoff;
  if (plain.length + values.length + names.length === 0) {
    console.log(`${path} calls no VANE function. ${output.path} is a copy of it, with nothing to replace.`);
    return;
  }
  console.log(`${output.path} calculates in any spreadsheet program, without the add-in; ${path} stays as it is.`);
  if (plain.length > 0) console.log(`Replaced by plain formulas, ${counted(plain.length, "cell")}:`);
  printFunctions(plain);
  const valueLines = cellBlocks(values).map(({ sheet, address, functions, reasons }) => ({
    sheet,
    address,
    says: `${functions.join(", ")}: ${reasons.join(" ")}`,
  }));
  printCells(
    `Replaced by their value, ${counted(values.length, "cell")}; they no longer follow the readings`,
    valueLines,
  );
  const kept = names.filter(({ reasons }) => reasons.length > 0);
  if (kept.length > 0)
    console.log("Names that keep a call and show #NAME? without the add-in; cells that use them do not:");
  for (const { name, functions, reasons } of kept) {
    console.log(`  ${name}  ${functions.join(", ")}: ${reasons.join(" ")}`);
  }
  printCalculation(calculation);
}

export const handoffCommand: Command = {
  usage: "FILE -o OUT [--replace] [--json]",
  help: [
    "Writes a copy for people without the add-in: every VANE formula becomes a plain one that any spreadsheet",
    "program calculates, or its value where no plain formula can say it. A last sheet says what was replaced.",
    "",
    "  -o OUT      the copy; --replace lets it take the place of a file there",
    "  --json      prints the same as data, every cell listed",
    "",
    "Ends with status 1 when a result is an error or the file is refused.",
  ],
  options: { ...OUTPUT_OPTIONS, json: { type: "boolean" } },
  async run(args) {
    const path = onePositional(args, "FILE");
    const output = workbookOutput(args, path);
    if (output === undefined) throw new UsageError("-o OUT is missing: the hand-off copy is a file of its own.");
    const done = await withProgress((report) => handOff(path, output, report));
    const { kept, errors } = done.calculation;
    if (args.options["json"] === true) {
      const { plain, values, names } = done.handoff;
      console.log(JSON.stringify({ file: path, saved: output.path, plain, values, names, kept, errors }));
    } else print(path, output, done);
    return errors.length > 0 ? EXIT.found : EXIT.done;
  },
};
