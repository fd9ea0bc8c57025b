import { strToU8, zipSync } from "fflate";
import { appendWorkbook } from "../append/append-workbook.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import { openWorkbook } from "../read/open-workbook.js";
import type { Workbook } from "../workbook.js";
import { escapeXml } from "../xml/text.js";
import { moveSheet } from "./move-sheet.js";
import { withParts } from "./restructure.js";
import { requireSheet, sheetNameProblem } from "./sheets-common.js";
import { type Restructured, refused } from "./structure-context.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** The smallest workbook that there is, with one sheet. */
function emptyWorkbook(name: string): Workbook {
  const parts = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${SPREADSHEET}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${SPREADSHEET}.worksheet+xml"/></Types>`,
    "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="${escapeXml(name)}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": `<worksheet xmlns="${MAIN}"><sheetData/></worksheet>`,
  };
  const files = Object.entries(parts).map(([part, text]) => [part, strToU8(text)] as const);
  return openWorkbook(zipSync(Object.fromEntries(files)), name);
}

/** An empty sheet, and where it goes. */
export interface AddedSheet {
  readonly name: string;
  /** The sheet before it; undefined for the first place. */
  readonly behind: string | undefined;
}

/**
 * Adds an empty sheet to a workbook.
 *
 * @param workbook - As opened; it stays as it is
 * @param sheet - Its name, and the sheet before it
 * @throws {WorkbookFileError} Where the name cannot be, or the structure is protected
 */
export function addSheet(workbook: Workbook, { name, behind }: AddedSheet, options: PatchOptions = {}): Restructured {
  const taken = workbook.sheets.map((one) => one.name);
  const problem = sheetNameProblem(name, taken);
  if (problem !== undefined) throw refused(workbook, `sheet “${name}”`, "cannot be added under that name", problem);
  const to = behind === undefined ? 1 : requireSheet(workbook, behind).index + 2;
  const added = withParts(workbook, appendWorkbook(workbook, emptyWorkbook(name)).edits, options);
  return moveSheet(added, { sheet: name, to }, options);
}
