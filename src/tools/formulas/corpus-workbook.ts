import { strToU8, zipSync } from "fflate";
import { columnLetters, formatAddress } from "../../xlsx/index.js";
import { inFileSpelling } from "./in-file-spelling.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

type Content = number | string | boolean | null | { readonly error: string };

/** The data that the formulas of the corpus read, by sheet; columns from A on, invented. */
const DATA: Readonly<Record<string, Readonly<Record<string, readonly Content[]>>>> = {
  D: {
    A: [3, 1, 4, 1, 5, 9, 2, 6],
    B: [10, "20", true, null, "apple", "-3", 0, -2.5],
    C: ["apple", "Banana", "cherry", "apple pie", "", "Äpfel", "a*b", "10"],
    D: [41640, 41671, 41699, 42064, 36585, 44561, 45000.5, 1],
    E: [true, false, true, null],
    F: [{ error: "#N/A" }, { error: "#DIV/0!" }, { error: "#VALUE!" }, 7],
    G: [1, 2, 3, 5, 8, 13, 21, 34],
    H: ["one", "two", "three", "four", "five", "six", "seven", "eight"],
    I: [1, 4, 7, 10],
    J: [2, 5, 8, 11],
    K: [3, 6, 9, 12],
    L: [90, 70, 50, 30, 10, 5, 3, 1],
    N: ["Outlet", "S-1", "S-2", "S-3", "S-4", "S-5", null, "Outlet", "S-2", "S-3"],
    O: ["Room", "Hall", "Hall", "Office", "Office", "Store", null, "cfm", ">100"],
    P: ["cfm", 120, 140, 95, 210, 80],
  },
  Rooms: {
    A: ["Outlet", "S-1", "S-2", "S-3", "Total"],
    B: ["Room", "Hall", "Hall", "Office"],
    C: ["cfm", 120, 140, 95, 355],
    D: ["design", 125, 125, 100, 350],
  },
  "Floor 1": { A: ["cfm", "total"], B: [7, 100, 5] },
  "Floor 2": { A: ["cfm", "total"], B: [8, 250, null] },
  "Floor 3": { A: ["cfm", "total"], B: [9, 300, 6] },
  North: { A: [11] },
  South: { A: [31] },
};

const NAMES = `<definedNames><definedName name="Nums">D!$A$1:$A$8</definedName><definedName name="Rate">0.05</definedName></definedNames>`;

const TABLE = `<table xmlns="${MAIN}" id="1" name="Outlets" displayName="Outlets" ref="A1:D5" totalsRowCount="1"><autoFilter ref="A1:D4"/><tableColumns count="4"><tableColumn id="1" name="Outlet" totalsRowLabel="Total"/><tableColumn id="2" name="Room"/><tableColumn id="3" name="cfm"/><tableColumn id="4" name="design"/></tableColumns></table>`;

/** Formulas stand in this row, so many on a sheet: where a formula stands decides what a whole column means in it. */
const ROW = 5;
const FORMULAS_ON_A_SHEET = 200;

const escaped = (text: string) => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");

function valueXml(address: string, content: Content): string {
  if (content === null) return "";
  if (typeof content === "number") return `<c r="${address}"><v>${content}</v></c>`;
  if (typeof content === "boolean") return `<c r="${address}" t="b"><v>${Number(content)}</v></c>`;
  if (typeof content === "object") return `<c r="${address}" t="e"><v>${content.error}</v></c>`;
  return `<c r="${address}" t="inlineStr"><is><t xml:space="preserve">${escaped(content)}</t></is></c>`;
}

function dataXml(columns: Readonly<Record<string, readonly Content[]>>, tail = ""): string {
  const height = Math.max(...Object.values(columns).map((values) => values.length));
  const rows = Array.from({ length: height }, (_, index) => {
    const cells = Object.entries(columns).map(([letter, values]) =>
      valueXml(`${letter}${index + 1}`, values[index] ?? null),
    );
    return `<row r="${index + 1}">${cells.join("")}</row>`;
  });
  return `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheetData>${rows.join("")}</sheetData>${tail}</worksheet>`;
}

function formulaXml(address: string, formula: string): string {
  const isArray = formula.startsWith("{");
  const text = escaped(inFileSpelling(isArray ? formula.slice(2, -1) : formula.slice(1)));
  return `<c r="${address}"><f${isArray ? ` t="array" ref="${address}"` : ""}>${text}</f></c>`;
}

/** Where a formula of the corpus stands, by its place from 0. */
export function corpusPlace(index: number): {
  readonly sheet: string;
  readonly address: string;
  readonly row: number;
  readonly column: number;
} {
  const column = (index % FORMULAS_ON_A_SHEET) + 1;
  return {
    sheet: `Cases${Math.floor(index / FORMULAS_ON_A_SHEET) + 1}`,
    address: formatAddress(ROW, column),
    row: ROW,
    column,
  };
}

/** A workbook of the corpus's data and of formulas, none with a stored result. */
export function corpusWorkbook(formulas: readonly string[]): Uint8Array {
  const sheets = new Map(
    Object.entries(DATA).map(([name, columns]) => [
      name,
      dataXml(columns, name === "Rooms" ? '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>' : ""),
    ]),
  );
  for (let first = 0; first < formulas.length; first += FORMULAS_ON_A_SHEET) {
    const cells = formulas
      .slice(first, first + FORMULAS_ON_A_SHEET)
      .map((formula, index) => formulaXml(`${columnLetters(index + 1)}${ROW}`, formula));
    sheets.set(
      corpusPlace(first).sheet,
      `<worksheet xmlns="${MAIN}"><sheetData><row r="${ROW}">${cells.join("")}</row></sheetData></worksheet>`,
    );
  }
  const names = [...sheets.keys()];
  const relationships = (lines: readonly string[]) =>
    `<Relationships xmlns="${PACKAGE}/relationships">${lines.join("")}</Relationships>`;
  const relationship = (id: number, type: string, target: string) =>
    `<Relationship Id="rId${id}" Type="${OFFICE}/${type}" Target="${target}"/>`;
  const overrides = names.map(
    (_, index) => `<Override PartName="/xl/worksheets/sheet${index + 1}.xml" ContentType="${TYPE}.worksheet+xml"/>`,
  );
  const parts: Record<string, string> = {
    "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/tables/table1.xml" ContentType="${TYPE}.table+xml"/>${overrides.join("")}</Types>`,
    "_rels/.rels": relationships([relationship(1, "officeDocument", "xl/workbook.xml")]),
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${names.map((name, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`).join("")}</sheets>${NAMES}</workbook>`,
    "xl/_rels/workbook.xml.rels": relationships(
      names.map((_, index) => relationship(index + 1, "worksheet", `worksheets/sheet${index + 1}.xml`)),
    ),
    "xl/worksheets/_rels/sheet2.xml.rels": relationships([relationship(1, "table", "../tables/table1.xml")]),
    "xl/tables/table1.xml": TABLE,
  };
  [...sheets.values()].forEach((xml, index) => {
    parts[`xl/worksheets/sheet${index + 1}.xml`] = xml;
  });
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, xml]) => [name, strToU8(xml)])));
}
