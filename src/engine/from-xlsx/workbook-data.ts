import {
  type Drawing,
  findSheetEntry,
  readDrawings,
  readLooks,
  type Sheet,
  type Workbook,
  WorkbookFileError,
} from "../../xlsx/index.js";
import type { KeptFormula } from "../calculate-xlsx.js";
import { DATA_VERSION } from "../data-version.js";
import { makeFormulaSpeller } from "./formula-speller.js";
import { numberLooks } from "./look-numbers.js";
import { sheetData } from "./sheet-data.js";
import type { EntryWords } from "./validations.js";

/** A workbook file in the engine's own form, and what of it the engine only shows as it was stored. */
export interface WorkbookConversion {
  readonly data: object;
  /** Formulas whose stored value stands in their place. */
  readonly kept: readonly KeptFormula[];
  /** What rules on entries say to the person, by the sheet's id and the rule's. */
  readonly words: Readonly<Record<string, EntryWords>>;
  readonly protectedSheetIds: readonly string[];
  /** What lies over the cells, by the id of the figure that holds its place. */
  readonly drawings: Readonly<Record<string, Drawing>>;
  /** Sheets whose drawings cannot be read, and why. */
  readonly unreadDrawings: readonly string[];
  /** The sheet that was in view when the file was saved. */
  readonly activeSheetId: string | undefined;
}

/**
 * Returns a workbook file in the engine's own form: contents, names, looks, sizes, rules on entries and conditional
 * formats of every worksheet, and the charts and pictures over its cells. Pivot tables and comments stay in the file alone.
 *
 * @param workbook - As opened
 */
export function workbookData(workbook: Workbook): WorkbookConversion {
  const looks = readLooks(workbook);
  const numbers = numberLooks(looks);
  const speller = makeFormulaSpeller(workbook);
  const unreadDrawings: string[] = [];
  const drawingsOf = (sheet: Sheet): readonly Drawing[] => {
    try {
      return readDrawings(workbook, sheet);
    } catch (cause) {
      // The cells can be worked with all the same, and the part stays in the file.
      if (!(cause instanceof WorkbookFileError)) throw cause;
      unreadDrawings.push(`“${sheet.name}”: ${cause.message}`);
      return [];
    }
  };
  const sheets = speller.sheets.map((sheet) => {
    const index = workbook.sheets.findIndex(({ partName }) => partName === sheet.partName);
    const visibility = findSheetEntry(workbook, sheet.name)?.visibility ?? "visible";
    const id = `sheet-${index + 1}`;
    return {
      id,
      name: sheet.name,
      isProtected: sheet.isProtected,
      ...sheetData(sheet, { id, visibility, looks, numbers, speller, drawings: drawingsOf(sheet) }),
    };
  });
  return {
    data: {
      version: DATA_VERSION,
      sheets: sheets.map(({ data }) => data),
      ...numbers.lists,
      namedRanges: { ...speller.names.ranges },
    },
    kept: sheets.flatMap(({ kept }) => kept),
    protectedSheetIds: sheets.filter(({ isProtected }) => isProtected).map(({ id }) => id),
    drawings: Object.assign({}, ...sheets.map(({ drawings }) => drawings)),
    unreadDrawings,
    activeSheetId: sheets.find(({ name }) => name === workbook.activeSheet)?.id,
    words: Object.fromEntries(sheets.map(({ id, words }) => [id, words])),
  };
}
