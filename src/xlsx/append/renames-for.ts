import { readSheet } from "../read/read-sheet.js";
import type { SheetEntry, Workbook } from "../workbook.js";
import { type Renames, renameFormula } from "./rename-formula.js";

const LONGEST_SHEET_NAME = 31;

/** A name that is not taken yet, with a number behind it where it must have one. */
function freeName(
  base: string,
  taken: ReadonlySet<string>,
  numbered: (base: string, number: number) => string,
): string {
  let name = base;
  for (let number = 2; taken.has(name.toLowerCase()); number += 1) name = numbered(base, number);
  return name;
}

/** What sheets and tables have to be called where their names are taken, and names that mean something else there. */
export function renamesFor(target: Workbook, source: Workbook, added: readonly SheetEntry[]): Renames {
  const takenSheets = new Set(target.sheets.map(({ name }) => name.toLowerCase()));
  const sheets = new Map<string, string>();
  for (const { name } of added) {
    const numbered = (base: string, number: number) =>
      `${base.slice(0, LONGEST_SHEET_NAME - ` (${number})`.length)} (${number})`;
    const free = freeName(name, takenSheets, numbered);
    takenSheets.add(free.toLowerCase());
    if (free !== name) sheets.set(name.toLowerCase(), free);
  }
  const worksheets = target.sheets.filter(({ kind }) => kind === "worksheet");
  const takenTables = new Set([
    ...worksheets.flatMap(({ name }) => readSheet(target, name).tables.map((table) => table.name.toLowerCase())),
    ...target.names.map(({ name }) => name.toLowerCase()),
  ]);
  const tables = new Map<string, string>();
  for (const table of added.flatMap(({ name }) => readSheet(source, name).tables)) {
    const free = freeName(table.name, takenTables, (base, number) => `${base}_${number}`);
    takenTables.add(free.toLowerCase());
    if (free !== table.name) tables.set(table.name.toLowerCase(), free);
  }
  const known = new Map(
    target.names.filter(({ sheet }) => sheet === undefined).map((one) => [one.name.toLowerCase(), one]),
  );
  const withSheets: Renames = { sheets, tables, names: new Map() };
  const names = source.names.flatMap(({ name, sheet, refersTo }): [string, string][] => {
    const meant = renameFormula(refersTo, withSheets);
    const there = sheet === undefined ? known.get(name.toLowerCase()) : undefined;
    return there === undefined || there.refersTo === meant ? [] : [[name.toLowerCase(), meant]];
  });
  return { sheets, tables, names: new Map(names) };
}
