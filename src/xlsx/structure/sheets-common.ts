import { formatAddress } from "../address.js";
import { changeReferences } from "../formula/change-references.js";
import { scanFormula } from "../formula/scan-formula.js";
import type { WorkbookEdit } from "../patch/edits.js";
import { findSheetEntry } from "../read/read-sheet.js";
import type { SheetEntry, Workbook } from "../workbook.js";
import { type FormulaHolder, formulasRewritten } from "./rewrite-formulas.js";
import type { PartRewrite } from "./rewrite-parts.js";
import { type OutdatedCell, refused, requireSimpleHistory, sheetOrder } from "./structure-context.js";

const LONGEST_NAME = 31;
export const same = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

export function requireSheet(workbook: Workbook, name: string): { readonly entry: SheetEntry; readonly index: number } {
  requireSimpleHistory(workbook);
  const entry = findSheetEntry(workbook, name);
  if (entry === undefined) {
    const names = workbook.sheets.map((sheet) => `“${sheet.name}”`).join(", ");
    throw refused(workbook, `sheet “${name}”`, "is not in the workbook", `Its sheets are ${names}.`);
  }
  if (workbook.isStructureProtected) {
    const problem = "cannot change: the structure of the workbook is protected";
    throw refused(
      workbook,
      `sheet “${entry.name}”`,
      problem,
      "Take the protection off in the spreadsheet program first.",
    );
  }
  return { entry, index: workbook.sheets.indexOf(entry) };
}

/**
 * Returns what is wrong with a name for a sheet, or undefined.
 *
 * @param taken - Names that other sheets have
 */
export function sheetNameProblem(name: string, taken: readonly string[]): string | undefined {
  if (name.trim() === "") return "A sheet needs a name.";
  if (name.length > LONGEST_NAME)
    return `A sheet's name has at most ${LONGEST_NAME} characters; this has ${name.length}.`;
  const [sign] = /[:\\/?*[\]]/.exec(name) ?? [];
  if (sign !== undefined) return `A sheet's name cannot hold ${sign}`;
  if (name.startsWith("'") || name.endsWith("'")) return "A sheet's name cannot begin or end with an apostrophe.";
  if (same(name, "History")) return "“History” is a name that Excel keeps for itself.";
  const other = taken.find((one) => same(one, name));
  return other === undefined ? undefined : `There is a sheet “${other}” already.`;
}

export function edits(rewrites: readonly PartRewrite[]): readonly WorkbookEdit[] {
  return rewrites.map(([partName, content]) => ({ kind: "part", partName, content }));
}

export const whereOf = ({ sheet, row, column, what }: FormulaHolder): string => {
  if (row !== undefined && column !== undefined) return `${sheet}!${formatAddress(row, column)}`;
  return sheet === undefined ? what : `${what} of “${sheet}”`;
};

/** Formulas that name a sheet within a text, as INDIRECT does. */
export function namedInTexts(workbook: Workbook, sheet: string): readonly string[] {
  const places: string[] = [];
  formulasRewritten(workbook, (formula, holder) => {
    if (!/\bINDIRECT\s*\(/i.test(formula)) return formula;
    const isNamed = scanFormula(formula).some(
      ({ kind, text }) => kind === "text" && text.toLowerCase().includes(sheet.toLowerCase()),
    );
    if (isNamed) places.push(whereOf(holder));
    return formula;
  });
  if (places.length === 0) return [];
  return [`These formulas name “${sheet}” within a text, which does not follow: ${places.join(", ")}.`];
}

export function macroNotice({ hasMacros }: Workbook): readonly string[] {
  return hasMacros ? ["The workbook has macros. Where they name sheets, they still do so by the old names."] : [];
}

/** Formulas through several sheets for which a change of the order changes what they read. */
export function acrossSheets(before: Workbook, namesAfter: readonly string[]): readonly FormulaHolder[] {
  const between = sheetOrder(before);
  const after = sheetOrder({
    ...before,
    sheets: namesAfter.map((name) => ({ name })) as unknown as Workbook["sheets"],
  });
  const holders: FormulaHolder[] = [];
  formulasRewritten(before, (formula, holder) => {
    if (!/:[^!:]*!/.test(formula)) return formula;
    changeReferences(formula, ({ sheet, lastSheet }) => {
      if (sheet === undefined || lastSheet === undefined) return undefined;
      const [had, has] = [between(sheet, lastSheet), after(sheet, lastSheet)];
      if ([...had].sort().join("\n") !== [...has].sort().join("\n")) holders.push(holder);
      return undefined;
    });
    return formula;
  });
  return holders;
}

export const cellsOfHolders = (holders: readonly FormulaHolder[]): readonly OutdatedCell[] =>
  holders.flatMap(({ sheet, row, column }) =>
    sheet === undefined || row === undefined || column === undefined ? [] : [{ sheet, row, column }],
  );
