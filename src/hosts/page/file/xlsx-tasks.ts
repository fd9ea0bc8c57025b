import { calculateXlsx, type KeptFormula, patchAndCalculate, type WorkbookConversion } from "../../../engine/index.js";
import { handoffOf, isMappingName, type TableInfo, tablesOf } from "../../../workbook/index.js";
import {
  type AddedSheet,
  addSheet,
  appendWorkbook,
  type CellEdit,
  changeStructure,
  filterEdits,
  formulaCellsOf,
  formulaPlaces,
  nameEdits,
  openWorkbook,
  patchWorkbook,
  readSheet,
  type StructureEdit,
  type TableFilter,
  type Workbook,
} from "../../../xlsx/index.js";
import { finishWhole, fixedRange } from "./finish-whole.js";
import { gridData } from "./grid-data.js";
import { partsLeftOut } from "./parts-left-out.js";

/** A file as it is to be written, and formulas whose stored result could not be brought up to date. */
export interface WrittenFile {
  readonly bytes: Uint8Array;
  readonly kept: readonly KeptFormula[];
}

function read(bytes: Uint8Array, fileName: string): WorkbookConversion {
  return gridData(openWorkbook(bytes, fileName));
}

/** What goes into a file beside the contents of its cells. */
export interface EnteredBeside {
  /** The names by which it keeps what its columns hold, where they have changed. */
  readonly columns?: Readonly<Record<string, string>> | null;
  /** Sheets that it does not have yet. */
  readonly added?: readonly AddedSheet[];
  /** What the filters of its tables show, where that has changed. */
  readonly filters?: readonly TableFilter[];
}

function withSheets(workbook: Workbook, added: readonly AddedSheet[]): Workbook {
  return added.reduce((one, sheet) => addSheet(one, sheet).workbook, workbook);
}

/** Formulas that leave out what a filter hides. */
const READS_WHAT_IS_SHOWN = /\b(?:SUBTOTAL|AGGREGATE)\s*\(/i;

function withFilters(workbook: Workbook, filters: readonly TableFilter[]): Workbook {
  const edits = filterEdits(workbook, filters);
  if (edits.length === 0) return workbook;
  const { fileName } = workbook;
  const filtered = openWorkbook(patchWorkbook(workbook, edits), fileName);
  const outdated = filtered.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(filtered, name))]
        .filter(({ formula }) => READS_WHAT_IS_SHOWN.test(formula.text))
        .map(({ row, column }) => ({ sheet: name, row, column })),
    );
  const results = calculateXlsx(filtered, outdated).edits;
  return results.length === 0 ? filtered : openWorkbook(patchWorkbook(filtered, results), fileName);
}

function patch(
  bytes: Uint8Array,
  fileName: string,
  edits: readonly CellEdit[],
  { columns, added = [], filters = [] }: EnteredBeside = {},
): WrittenFile {
  const workbook = withFilters(withSheets(openWorkbook(bytes, fileName), added), filters);
  const names = Object.entries(columns ?? {}).map(([name, range]) => {
    return { name, refersTo: fixedRange(range), isHidden: true };
  });
  const kept = columns == null ? [] : nameEdits(workbook, names, isMappingName);
  const written = patchAndCalculate(workbook, [...kept, ...edits]);
  return { bytes: written.bytes, kept: written.calculation.kept };
}

/** What a hand-off copy is, and of how many formulas it is made. */
export interface HandoffFile {
  readonly bytes: Uint8Array;
  readonly plainCount: number;
  readonly valueCount: number;
}

function handOff(bytes: Uint8Array, fileName: string): HandoffFile {
  const workbook = openWorkbook(bytes, fileName);
  const { edits, plain, values } = handoffOf(workbook);
  return { bytes: patchWorkbook(workbook, edits), plainCount: plain.length, valueCount: values.length };
}

/** A workbook with a template's sheets behind its own. */
export interface AppendedFile {
  readonly bytes: Uint8Array;
  readonly sheets: readonly string[];
  readonly conversion: WorkbookConversion;
}

function append(bytes: Uint8Array, fileName: string, template: Uint8Array): AppendedFile {
  const workbook = openWorkbook(bytes, fileName);
  const { edits, sheets } = appendWorkbook(workbook, openWorkbook(template, "the template"));
  const appended = openWorkbook(patchWorkbook(workbook, edits), fileName);
  const results = calculateXlsx(appended, formulaPlaces(appended, sheets)).edits;
  const calculated = openWorkbook(patchWorkbook(appended, results), fileName);
  return { bytes: calculated.archive.bytes, sheets, conversion: gridData(calculated) };
}

/** A workbook in which rows or sheets changed. */
export interface RestructuredFile extends WrittenFile {
  readonly conversion: WorkbookConversion;
  readonly notices: readonly string[];
}

function restructure(
  bytes: Uint8Array,
  fileName: string,
  edits: readonly CellEdit[],
  edit: StructureEdit,
  beside?: EnteredBeside,
): RestructuredFile {
  const entered = patch(bytes, fileName, edits, beside);
  const { workbook, outdated, notices } = changeStructure(openWorkbook(entered.bytes, fileName), edit);
  const calculation = calculateXlsx(workbook, outdated);
  const calculated = openWorkbook(patchWorkbook(workbook, calculation.edits), fileName);
  return { bytes: calculated.archive.bytes, kept: calculation.kept, conversion: gridData(calculated), notices };
}

function tables(bytes: Uint8Array, fileName: string): readonly TableInfo[] {
  return tablesOf(openWorkbook(bytes, fileName));
}

/** What the page does with the bytes of files. Each task takes and returns plain data, so that a worker can do it. */
export const XLSX_TASKS = { read, patch, append, restructure, tables, handOff, finishWhole, partsLeftOut } as const;

export type XlsxTasks = typeof XLSX_TASKS;

/** Does a task somewhere, and tells how it went. */
export type RunTask = <Name extends keyof XlsxTasks>(
  name: Name,
  ...given: Parameters<XlsxTasks[Name]>
) => Promise<ReturnType<XlsxTasks[Name]>>;
