import { placeOf } from "../package/read-part.js";
import type { Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import type { SheetsBetween } from "./change-formula.js";

/** A cell by its place, after the change. */
export interface OutdatedCell {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A workbook with other rows or sheets. */
export interface Restructured {
  /** Opened anew; its file is `workbook.archive.bytes`. */
  readonly workbook: Workbook;
  /** Formulas that are new, or whose stored result may be old: to be calculated before the file is saved. */
  readonly outdated: readonly OutdatedCell[];
  /** What does not follow, and cannot be seen from the sheet, in sentences for the person. */
  readonly notices: readonly string[];
}

/** What cannot be followed is refused with the place and what to do, before anything is changed. */
export function refused(workbook: Workbook, place: string, problem: string, advice: string): WorkbookFileError {
  return new WorkbookFileError("refused-edit", `${workbook.fileName}, ${place}`, problem, advice);
}

/** Names the sheets from one to another, in the order of the workbook. */
export function sheetOrder(workbook: Workbook): SheetsBetween {
  const names = workbook.sheets.map(({ name }) => name.toLowerCase());
  return (first, last) => {
    const [one, other] = [names.indexOf(first.toLowerCase()), names.indexOf(last.toLowerCase())];
    return one < 0 || other < 0 ? [] : names.slice(Math.min(one, other), Math.max(one, other) + 1);
  };
}

/** Names of the parts whose content type says what they are. */
export function partsOfType(workbook: Workbook, wanted: RegExp): readonly string[] {
  return workbook.archive.entries
    .map(({ name }) => name)
    .filter((name) => wanted.test(workbook.contentTypes.byPart.get(name.toLowerCase()) ?? ""));
}

/** Refuses what no change of structure can follow. */
export function requireSimpleHistory(workbook: Workbook): void {
  const history = workbook.relationships.find(({ kind }) => kind === "revisionHeaders");
  if (history === undefined) return;
  throw refused(
    workbook,
    "its history of changes",
    `keeps earlier places of cells (${placeOf(workbook.archive, history.target)})`,
    "Stop sharing the workbook in the spreadsheet program, save it, and try again.",
  );
}
