import { appendWorkbook } from "../append/append-workbook.js";
import { relationshipsOf } from "../package/read-part.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import { readSheet } from "../read/read-sheet.js";
import type { Workbook } from "../workbook.js";
import { moveSheet } from "./move-sheet.js";
import { renameSheet } from "./rename-sheet.js";
import { withParts } from "./restructure.js";
import { macroNotice, requireSheet, sheetNameProblem } from "./sheets-common.js";
import { type Restructured, refused } from "./structure-context.js";

/** What a copy of a sheet cannot have, since the workbook lists it elsewhere too. */
const NOT_COPIED: Readonly<Record<string, string>> = {
  pivotTable: "a pivot table",
  slicer: "a slicer",
  timeline: "a timeline",
  queryTable: "a table of outside data",
};

/**
 * Copies a sheet and puts the copy behind it. Its tables get names of their own, its formulas read the copy, and names that
 * refer to the sheet count on the copy too.
 *
 * @param workbook - As opened; it stays as it is
 * @param copy - Which sheet, and the copy's name; without one it is called “Outlets (2)”
 * @returns The workbook, and what the copy is called
 * @throws {WorkbookFileError} Where the sheet holds what cannot be copied, before anything is changed
 */
export function copySheet(
  workbook: Workbook,
  { sheet, name }: { readonly sheet: string; readonly name?: string },
  options: PatchOptions = {},
): Restructured & { readonly sheet: string } {
  const { entry, index } = requireSheet(workbook, sheet);
  const place = `sheet “${entry.name}”`;
  if (entry.kind !== "worksheet") {
    throw refused(workbook, place, "holds no cells", "Copy it in the spreadsheet program.");
  }
  const problem =
    name === undefined
      ? undefined
      : sheetNameProblem(
          name,
          workbook.sheets.map((one) => one.name),
        );
  if (problem !== undefined) throw refused(workbook, place, "cannot be copied under that name", problem);
  const tables = readSheet(workbook, entry.name).tables.flatMap(({ partName }) =>
    relationshipsOf(workbook.archive, partName),
  );
  const kinds = [...relationshipsOf(workbook.archive, entry.partName), ...tables].map(({ kind }) => NOT_COPIED[kind]);
  const held = kinds.find((kind) => kind !== undefined);
  if (held !== undefined) {
    throw refused(
      workbook,
      place,
      `holds ${held}, which cannot be copied`,
      "Copy the sheet in the spreadsheet program.",
    );
  }
  const prefixes = [`${entry.name}!`, `'${entry.name.replaceAll("'", "''")}'!`];
  const isOfSheet = (refersTo: string): boolean => prefixes.some((prefix) => refersTo.startsWith(prefix));
  const names = workbook.names
    .filter((one) => one.sheet === entry.name || (one.sheet === undefined && isOfSheet(one.refersTo)))
    .map((one) => ({ ...one, sheet: entry.name }));
  const appended = appendWorkbook(workbook, { ...workbook, sheets: [entry], names });
  let copied = withParts(workbook, appended.edits, options);
  let [called = ""] = appended.sheets;
  if (name !== undefined && name !== called) {
    copied = renameSheet(copied, { sheet: called, name }, options).workbook;
    called = name;
  }
  const moved = moveSheet(copied, { sheet: called, to: index + 2 }, options);
  return { ...moved, notices: [...moved.notices, ...macroNotice(workbook)], sheet: called };
}
