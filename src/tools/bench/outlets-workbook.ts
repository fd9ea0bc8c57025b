import { strToU8, zipSync } from "fflate";
import { storedFormula } from "../../workbook/index.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";

/** Formulas of an outlet's row, from column K: five calls that read inputs alone, and a plain formula over one of them. */
export const ROW_FORMULAS = [
  "=VANE.OPENING.RECT(B#,C#)",
  "=VANE.TRAVERSE.AVERAGE(E#:I#,COUNT(E#:I#))",
  "=VANE.AIRFLOW.FACE(B#,C#,E#:I#,D#,COUNT(E#:I#))",
  "=VANE.AIRFLOW.TARGET(J#,B#*C#/144,D#)",
  "=VANE.TRAVERSE.SPREAD(E#:I#,COUNT(E#:I#))",
  '=IF(J#>0,100*M#/J#,"")',
];

const SIZES = [
  [14, 6],
  [12, 8],
  [10, 10],
  [20, 8],
] as const;

function row(number: number, cells: readonly (number | string)[]): string {
  const written = cells.map((cell, index) => {
    const address = String.fromCharCode(65 + index) + number;
    if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
    if (!cell.startsWith("=")) return `<c r="${address}" t="inlineStr"><is><t>${cell}</t></is></c>`;
    const formula = storedFormula(cell.replaceAll("#", String(number)));
    return `<c r="${address}"><f>${formula.replaceAll("&", "&amp;").replaceAll(">", "&gt;")}</f><v>0</v></c>`;
  });
  return `<row r="${number}">${written.join("")}</row>`;
}

function outlet(index: number): readonly (number | string)[] {
  const [width, height] = SIZES[index % SIZES.length] ?? SIZES[0];
  const readings = [0, 1, 2, 3, 4].map((reading) => 350 + ((index * 37 + reading * 11) % 140));
  return [`S-${index + 1}`, width, height, 0.75, ...readings, 150 + (index % 60), ...ROW_FORMULAS];
}

/** A workbook of so many outlets, invented, six formulas a row, none calculated yet. */
export function outletsWorkbook(outlets: number): Uint8Array {
  const rows = Array.from({ length: outlets }, (_, index) => row(index + 1, outlet(index)));
  const relationship = (id: string, type: string, target: string) =>
    `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="${id}" Type="${OFFICE}/${type}" Target="${target}"/></Relationships>`;
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml";
  return zipSync({
    "[Content_Types].xml": strToU8(
      `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${type}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${type}.worksheet+xml"/></Types>`,
    ),
    "_rels/.rels": strToU8(relationship("rId1", "officeDocument", "xl/workbook.xml")),
    "xl/workbook.xml": strToU8(
      `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="Outlets" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    "xl/_rels/workbook.xml.rels": strToU8(relationship("rId1", "worksheet", "worksheets/sheet1.xml")),
    "xl/worksheets/sheet1.xml": strToU8(
      `<worksheet xmlns="${MAIN}"><sheetData>${rows.join("")}</sheetData></worksheet>`,
    ),
  });
}
