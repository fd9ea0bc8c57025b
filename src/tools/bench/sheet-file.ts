import { strToU8, zipSync } from "fflate";
import { storedFormula } from "../../workbook/index.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** A row as a file holds it, its formulas without results; # stands for the number of the row in them. */
export function rowXml(number: number, cells: readonly (number | string)[]): string {
  const written = cells.map((cell, index) => {
    const address = String.fromCharCode(65 + index) + number;
    if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
    if (!cell.startsWith("=")) return `<c r="${address}" t="inlineStr"><is><t>${cell}</t></is></c>`;
    const formula = storedFormula(cell.replaceAll("#", String(number)));
    return `<c r="${address}"><f>${formula.replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</f></c>`;
  });
  return `<row r="${number}">${written.join("")}</row>`;
}

/** An .xlsx file of one sheet. */
export function sheetFile(name: string, rows: readonly string[]): Uint8Array {
  const relationship = (id: string, type: string, target: string) =>
    `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"/></Relationships>`;
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml";
  return zipSync({
    "[Content_Types].xml": strToU8(
      `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${type}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${type}.worksheet+xml"/></Types>`,
    ),
    "_rels/.rels": strToU8(relationship("rId1", "officeDocument", "xl/workbook.xml")),
    "xl/workbook.xml": strToU8(
      `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="${name}" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(relationship("rId1", "worksheet", "worksheets/sheet1.xml")),
    "xl/worksheets/sheet1.xml": strToU8(
      `<worksheet xmlns="${MAIN}"><sheetData>${rows.join("")}</sheetData></worksheet>`,
    ),
  });
}
