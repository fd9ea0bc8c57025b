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
  scanFormula,
  type TableFilter,
  type Workbook,
  type WorkbookEdit,
} from "../../../xlsx/index.js";
import type { NameChanges } from "./changes-since.js";
import { checkCopy } from "./check-copy.js";
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
  /** Names for cells that a person gave, changed or took away. */
  readonly names?: NameChanges | null;
  /** What the filters of its tables show, where that has changed. */
  readonly filters?: readonly TableFilter[];
}

function withSheets(workbook: Workbook, added: readonly AddedSheet[]): Workbook {
  return added.reduce((one, sheet) => addSheet(one, sheet).workbook, workbook);
}

/** Puts edits into a workbook, and brings the formulas up to date that are outdated by them. */
function edited(
  workbook: Workbook,
  edits: readonly WorkbookEdit[],
  isOutdated: (formula: string) => boolean,
): Workbook {
  if (edits.length === 0) return workbook;
  const { fileName } = workbook;
  const after = openWorkbook(patchWorkbook(workbook, edits), fileName);
  const outdated = after.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name }) =>
      [...formulaCellsOf(readSheet(after, name))]
        .filter(({ formula }) => isOutdated(formula.text))
        .map(({ row, column }) => ({ sheet: name, row, column })),
    );
  const results = calculateXlsx(after, outdated).edits;
  return results.length === 0 ? after : openWorkbook(patchWorkbook(after, results), fileName);
}

/** Formulas that leave out what a filter hides. */
const READS_WHAT_IS_SHOWN = /\b(?:SUBTOTAL|AGGREGATE)\s*\(/i;

function withFilters(workbook: Workbook, filters: readonly TableFilter[]): Workbook {
  return edited(workbook, filterEdits(workbook, filters), (formula) => READS_WHAT_IS_SHOWN.test(formula));
}

const namesIn = (formula: string): readonly string[] =>
  scanFormula(formula).flatMap(({ kind, text }) => (kind === "name" ? [text.toLowerCase()] : []));

function withNames(workbook: Workbook, { set, replaced }: NameChanges): Workbook {
  const given = Object.entries(set).map(([name, range]) => ({ name, refersTo: fixedRange(range), isHidden: false }));
  const gone = new Set(replaced);
  const changed = new Set([...Object.keys(set), ...replaced].map((name) => name.toLowerCase()));
  // A name may stand for a calculation with other names.
  for (let known = 0; known < changed.size; ) {
    known = changed.size;
    for (const { name, refersTo } of workbook.names) {
      if (namesIn(refersTo).some((one) => changed.has(one))) changed.add(name.toLowerCase());
    }
  }
  const edits = nameEdits(workbook, given, (name) => gone.has(name));
  return edited(workbook, edits, (formula) => namesIn(formula).some((name) => changed.has(name)));
}

function patch(
  bytes: Uint8Array,
  fileName: string,
  edits: readonly CellEdit[],
  { columns, added = [], names: given, filters = [] }: EnteredBeside = {},
): WrittenFile {
  const whole = withSheets(openWorkbook(bytes, fileName), added);
  const workbook = withFilters(given == null ? whole : withNames(whole, given), filters);
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
export const XLSX_TASKS = {
  read,
  patch,
  append,
  restructure,
  tables,
  handOff,
  finishWhole,
  partsLeftOut,
  checkCopy,
} as const;

export type XlsxTasks = typeof XLSX_TASKS;

/** Does a task somewhere, and tells how it went. */
export type RunTask = <Name extends keyof XlsxTasks>(
  name: Name,
  ...given: Parameters<XlsxTasks[Name]>
) => Promise<Awaited<ReturnType<XlsxTasks[Name]>>>;
