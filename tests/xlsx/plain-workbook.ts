import { strToU8, type Zippable, zipSync } from "fflate";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** The parts of the smallest workbook, with one sheet named Sheet1. */
export function plainParts(rows: string, wholeSheet?: string): Record<string, string> {
  return {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>`,
    "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": wholeSheet ?? `<worksheet xmlns="${MAIN}"><sheetData>${rows}</sheetData></worksheet>`,
  };
}

/** Zips parts given as text. */
export function zipParts(parts: Record<string, string | Uint8Array>): Uint8Array {
  const files: Zippable = {};
  for (const [name, content] of Object.entries(parts)) {
    files[name] = typeof content === "string" ? strToU8(content) : content;
  }
  return zipSync(files);
}

/** The smallest workbook, with these rows in its sheet and these parts added or replaced. */
export function plainWorkbook(rows: string, more: Record<string, string> = {}, wholeSheet?: string): Uint8Array {
  return zipParts({ ...plainParts(rows, wholeSheet), ...more });
}
