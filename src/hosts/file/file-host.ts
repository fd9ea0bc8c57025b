import type { calculateXlsx } from "../../engine/calculation.js";
import {
  type CellBlock,
  isAsItsFile,
  isMappingName,
  layoutOf,
  type SheetInfo,
  type TemplateId,
  type TemplateOptions,
  tablesOf,
  type WorkbookHost,
} from "../../workbook/index.js";
import {
  appendWorkbook,
  cellsOf,
  changedPlaces,
  changeStructure,
  type FormulaPlace,
  formatRange,
  formulaPlaces,
  nameEdits,
  type OutdatedCell,
  openWorkbook,
  patchWorkbook,
  readSheet,
  type Sheet,
  type Workbook,
  type WorkbookEdit,
} from "../../xlsx/index.js";
import { openTemplate } from "./open-template.js";
import type { WorkbookFile } from "./open-workbook-file.js";
import { type ErrorMessages, placeKey, readBlock } from "./read-block.js";
import { saveWorkbookFile } from "./save-workbook-file.js";
import { editsOfBlock } from "./write-block.js";

/** A workbook file as a host. What is written stands in memory, calculated, until it is saved. */
export interface FileHost extends WorkbookHost {
  readonly kind: "file";
  /**
   * Saves over the file that was opened, when anything is new, its results up to date.
   *
   * @throws {HostError} When the file has changed since, is open elsewhere or cannot be written; it is as it was
   */
  save(): Promise<void>;
}

/** What calculates a workbook. Handed in, so that opening and saving files loads no spreadsheet engine. */
type Calculate = typeof calculateXlsx;

/** A template as its file has it, or one that is made of its plan. */
async function chosenTemplate(template: TemplateId, options: TemplateOptions): Promise<Workbook> {
  if (isAsItsFile(options)) return openTemplate(template);
  const { plannedTemplate } = await import("../../engine/planned-template.js");
  return plannedTemplate(template, options);
}

interface Calculated {
  readonly workbook: Workbook;
  readonly messages: ErrorMessages;
}

function patched(workbook: Workbook, edits: readonly WorkbookEdit[]): Workbook {
  const bytes = patchWorkbook(workbook, edits);
  if (bytes === workbook.archive.bytes) return workbook;
  return openWorkbook(bytes, workbook.fileName, workbook.archive.codec);
}

function calculated(calculate: Calculate, workbook: Workbook, changed: readonly FormulaPlace[]): Calculated {
  return calculatedAt(calculate, workbook, changed);
}

function calculatedAt(calculate: Calculate, workbook: Workbook, changed: readonly OutdatedCell[]): Calculated {
  const { edits, errors } = calculate(workbook, changed);
  const messages = new Map(errors.map(({ sheet, address, message }) => [placeKey(sheet, address), message]));
  return { workbook: patched(workbook, edits), messages };
}

function usedRange(sheet: Sheet): string | null {
  let used = { firstRow: Number.MAX_SAFE_INTEGER, firstColumn: Number.MAX_SAFE_INTEGER, lastRow: 0, lastColumn: 0 };
  for (const { row, column, value, formula } of cellsOf(sheet)) {
    if (value === null && formula === undefined) continue;
    used = {
      firstRow: Math.min(used.firstRow, row),
      firstColumn: Math.min(used.firstColumn, column),
      lastRow: Math.max(used.lastRow, row),
      lastColumn: Math.max(used.lastColumn, column),
    };
  }
  return used.lastRow === 0 ? null : formatRange(used);
}

function sheetInfo(workbook: Workbook, name: string): SheetInfo {
  const sheet = readSheet(workbook, name);
  return { name, usedRange: usedRange(sheet), isProtected: sheet.isProtected };
}

/** What a person has named, and what the workbook keeps of its columns; a name that counts on one sheet alone begins with that sheet. */
function namesOf({ names }: Workbook): ReadonlyMap<string, string> {
  const named = names.filter(({ name, isHidden }) => isMappingName(name) || (!isHidden && !name.startsWith("_xlnm.")));
  return new Map(named.map(({ name, sheet, refersTo }) => [sheet === undefined ? name : `${sheet}!${name}`, refersTo]));
}

/**
 * A workbook file as a host of sheets and checks.
 *
 * @param file - As it was opened; its VANE formulas are calculated when they are first asked for
 * @param calculate - The engine's `calculateXlsx`
 */
export function fileHost(file: WorkbookFile, calculate: Calculate): FileHost {
  let saved = file;
  let state: Calculated | undefined;
  const current = (): Calculated => {
    state ??= calculated(calculate, saved.workbook, []);
    return state;
  };

  return {
    kind: "file",

    async sheets() {
      const { workbook } = current();
      return workbook.sheets.filter(({ kind }) => kind === "worksheet").map(({ name }) => sheetInfo(workbook, name));
    },

    async read(addresses) {
      const { workbook, messages } = current();
      return addresses.map((address): CellBlock => readBlock(workbook, address, messages));
    },

    async write(blocks) {
      const { workbook } = current();
      const edits = blocks.flatMap((block) => editsOfBlock(workbook, block));
      state = calculated(calculate, patched(workbook, edits), changedPlaces(edits));
    },

    async names() {
      return namesOf(current().workbook);
    },

    async tables() {
      return tablesOf(current().workbook);
    },

    async layouts(sheets) {
      const { workbook } = current();
      return sheets.map(({ name }) => layoutOf(readSheet(workbook, name)));
    },

    async addRows(edit) {
      const { workbook, outdated, notices } = changeStructure(current().workbook, edit);
      state = calculatedAt(calculate, workbook, outdated);
      return notices;
    },

    async keepColumns(names) {
      const { workbook, messages } = current();
      const hidden = names.map(({ name, refersTo }) => ({ name, refersTo, isHidden: true }));
      state = { workbook: patched(workbook, nameEdits(workbook, hidden, isMappingName)), messages };
    },

    async addTemplate(template, options = {}) {
      const source = await chosenTemplate(template, options);
      const { workbook } = current();
      const { edits, sheets } = appendWorkbook(workbook, source);
      const appended = patched(workbook, edits);
      state = calculated(calculate, appended, formulaPlaces(appended, sheets));
      return sheets;
    },

    async save() {
      const { workbook } = current();
      const { bytes } = workbook.archive;
      if (bytes === saved.workbook.archive.bytes) return;
      saved = { ...(await saveWorkbookFile(saved, bytes)), workbook };
    },
  };
}
