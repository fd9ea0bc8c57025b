import { strFromU8 } from "fflate";
import { FUNCTION_SPELLINGS } from "../../../cells/index.js";
import { isMappingName } from "../../../workbook/index.js";
import {
  type CellEdit,
  callsFunction,
  filterEdits,
  formatRange,
  formulaCellsOf,
  openWorkbook,
  patchWorkbook,
  readSheet,
  storedFormula,
  type TableFilter,
  type Workbook,
  type WorkbookEdit,
} from "../../../xlsx/index.js";
import { readPart } from "../../../xlsx/package/read-part.js";
import { escapeXml } from "../../../xlsx/xml/text.js";

/** Calls of our functions in the spelling of files, as what Excel takes an add-in's call for. */
function respelledCalls(workbook: Workbook): readonly CellEdit[] {
  return workbook.sheets.flatMap(({ name }) =>
    [...formulaCellsOf(readSheet(workbook, name))].flatMap(({ address, value, formula }): readonly CellEdit[] => {
      if (!callsFunction(formula.text, FUNCTION_SPELLINGS)) return [];
      const range = formula.range === undefined ? address : formatRange(formula.range);
      const text = storedFormula(formula.text, FUNCTION_SPELLINGS);
      return [{ kind: "formula", sheet: name, address, formula: text, result: value, form: "dynamic", range }];
    }),
  );
}

/** Fixes a range in place: in a file, a name without the signs means another cell from wherever it is used. */
export function fixedRange(range: string): string {
  const start = range.lastIndexOf("!") + 1;
  return (
    range.slice(0, start) +
    range
      .slice(start)
      .replaceAll("$", "")
      .replace(/[A-Z]+|\d+/g, "$$$&")
  );
}

/** The engine writes no defined names; they stand behind the list of sheets. */
function withNames(workbook: Workbook, names: Readonly<Record<string, string>>): readonly WorkbookEdit[] {
  const entries = Object.entries(names);
  if (entries.length === 0) return [];
  const list = entries.map(
    ([name, range]) =>
      `<definedName name="${escapeXml(name)}"${isMappingName(name) ? ' hidden="1"' : ""}>${escapeXml(fixedRange(range))}</definedName>`,
  );
  const part = strFromU8(readPart(workbook.archive, workbook.workbookPart));
  const content = part.replace("</sheets>", () => `</sheets><definedNames>${list.join("")}</definedNames>`);
  return [{ kind: "part", partName: workbook.workbookPart, content }];
}

/**
 * Finishes a file that the engine wrote: calls of our functions as files spell them, the defined names, and the filters.
 *
 * @param names - What each defined name refers to
 * @param filters - What is to be seen of its tables
 */
export function finishWhole(
  bytes: Uint8Array,
  fileName: string,
  names: Readonly<Record<string, string>>,
  filters: readonly TableFilter[],
): Uint8Array {
  const written = openWorkbook(bytes, fileName);
  const workbook = openWorkbook(patchWorkbook(written, filterEdits(written, filters)), fileName);
  return patchWorkbook(workbook, [...respelledCalls(workbook), ...withNames(workbook, names)]);
}
