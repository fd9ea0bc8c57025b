import { calculateXlsx, type KeptFormula } from "../engine/calculation.js";
import { openWorkbookFile } from "../hosts/file/index.js";
import { type CheckReport, checkedFile, checkWorkbook, type Finding } from "../workbook/index.js";
import { type Command, EXIT, onePositional } from "./command.js";
import { type Report, withProgress } from "./progress.js";
import { widest } from "./widest.js";
import { counted, printCells } from "./workbook-report.js";

interface Checked extends CheckReport {
  /** Formulas that were not calculated, so that they were checked without a fresh result, and why. */
  readonly kept: readonly KeptFormula[];
}

async function checkFile(path: string, report: Report): Promise<Checked> {
  const { workbook } = await openWorkbookFile(path);
  const calculation = calculateXlsx(workbook, [], (done, total) => report(done, total, "calculating"));
  report(1, 1, "checking");
  const checked = checkWorkbook(checkedFile(workbook, calculation));
  return {
    ...checked,
    findings: checked.findings.map((finding) => ({ ...finding, file: path })),
    kept: calculation.kept,
  };
}

function bySheet(findings: readonly Finding[]): ReadonlyMap<string, readonly Finding[]> {
  const sheets = new Map<string, Finding[]>();
  for (const finding of findings) {
    const known = sheets.get(finding.sheet) ?? [];
    known.push(finding);
    sheets.set(finding.sheet, known);
  }
  return sheets;
}

function summary({ findings, formulaCount, vaneFormulaCount, sheetCount, listCount }: Checked): string {
  const looked = `${counted(formulaCount, "formula")} on ${counted(sheetCount, "sheet")} looked through`;
  const isLittle = vaneFormulaCount === 0 && listCount === 0;
  const ours = isLittle ? ". None calls a VANE function and no list of outlets is known, so little can be checked" : "";
  const errors = findings.filter(({ severity }) => severity === "error").length;
  const warnings = findings.length - errors;
  if (findings.length === 0) return `${looked}${ours}; nothing found.`;
  return `${looked}${ours}; ${counted(errors, "error")} and ${counted(warnings, "warning")} found.`;
}

function print(path: string, checked: Checked): void {
  console.log(`${path}: ${summary(checked)}`);
  for (const [sheet, findings] of bySheet(checked.findings)) {
    console.log(`\n${sheet}`);
    const width = widest(findings.map(({ cell }) => cell));
    for (const { cell, severity, problem, action } of findings) {
      console.log(`  ${cell.padEnd(width)}  ${severity}: ${problem}`);
      console.log(`  ${" ".repeat(width)}  ${action}`);
    }
  }
  const lines = checked.kept.map(({ sheet, address, reason }) => ({ sheet, address, says: reason }));
  printCells(`\nChecked without a fresh result, ${lines.length}; it may be out of date`, lines);
}

export const checkCommand: Command = {
  usage: "FILE [--json]",
  help: [
    "Looks through a workbook for what makes its airflows wrong: readings that are blank or text, zeros that nobody",
    "can tell from blanks, factors above 1 or used twice, areas and velocities in another unit, percents without a",
    "design, formulas and verdicts typed over, averages of too few points. It changes nothing.",
    "",
    "  --json      prints the findings as data: kind, severity, leftOut, file, sheet, cell, problem, action",
    "",
    "Ends with status 1 when something is found or the file is refused. docs/checks.md explains each finding.",
  ],
  options: { json: { type: "boolean" } },
  async run(args) {
    const path = onePositional(args, "FILE");
    const checked = await withProgress((report) => checkFile(path, report));
    if (args.options["json"] === true) console.log(JSON.stringify({ file: path, ...checked }));
    else print(path, checked);
    return checked.findings.length > 0 ? EXIT.found : EXIT.done;
  },
};
