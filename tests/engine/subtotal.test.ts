import { beforeAll, describe, expect, it } from "vitest";
import { calculateXlsx, createModel, workbookData } from "../../src/engine/index.js";
import { cellsOf, formulaCellsOf, openWorkbook, readSheet, rowStateAt, type Workbook } from "../../src/xlsx/index.js";
import { madeByLibreOffice, recalculated } from "../support/libreoffice.js";
import { plainParts, zipParts } from "../xlsx/plain-workbook.js";

/*
 * What SUBTOTAL leaves out: ECMA-376-1:2016, 18.17.7.316, and Excel's own help. LibreOffice calculates every formula here
 * too; where it is silent, the expected number is worked out beside it.
 */

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";

const FUNCTIONS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
const NUMBERS = [...FUNCTIONS, ...FUNCTIONS.map((number) => number + 100)];

/** A list of outlets that a filter has thinned out, in columns A and B, and readings with rows hidden by hand in D to F. */
const ROWS: readonly (readonly [row: number, hidden: boolean, cells: Readonly<Record<string, number | string>>])[] = [
  [1, false, { A: "Kind", B: "cfm" }],
  [2, false, { A: "supply", B: 110 }],
  [3, true, { A: "return", B: 220.5 }],
  [4, false, { A: "supply", B: "=VANE.AIRFLOW(400,0.5)" }],
  [5, true, { A: "return", B: "=1/0" }],
  [6, false, { A: "supply", B: "=SUBTOTAL(109,B2:B4)" }],
  [7, false, { A: "supply", B: "=SUBTOTAL(9,B2:B4)*2+1" }],
  [8, false, { A: "supply", B: "=_xlfn.AGGREGATE(9,0,B2:B4)" }],
  [9, false, { A: "supply", B: "shut" }],
  [10, false, { A: "supply" }],
  [20, false, { D: 4, E: 7, F: "a" }],
  [21, true, { D: 8, E: "=1/0" }],
  [22, false, { D: 0, F: '="b"&"c"', G: "=TRUE()" }],
  [23, false, { D: -3, E: "=SUBTOTAL(1,D20:D22)" }],
  [24, true, { D: 16, E: 5 }],
  [25, false, { E: '=""' }],
];

/** What may stand between the brackets. */
const RANGES = {
  "the filtered list": "$B$2:$B$10",
  "the filtered list and its heading": "$B$1:$B$10",
  "rows hidden by hand": "$D$20:$D$25",
  "a block with an error in a hidden row": "$D$20:$F$25",
  "several ranges": "$D$20:$D$22,$E$23:$F$23,$B$2:$B$4",
  "a row": "$D$20:$F$20",
  "a hidden row": "$D$24:$F$24",
  "nothing but blanks": "$H$2:$H$9",
  "whole columns": "$A:$B",
  "another name for cells": "Readings",
} as const;

const CASES = Object.values(RANGES).flatMap((range) => NUMBERS.map((number) => `SUBTOTAL(${number},${range})`));
/** Numbers that are none of its functions, and numbers spelled otherwise. */
const ODD = ["0", "12", "100", "112", "-1", '"x"', "9.9", '"109"', "D20+D22+5"].map(
  (number) => `SUBTOTAL(${number},$D$20:$D$24)`,
);
const ALL = [
  ...CASES,
  ...ODD,
  "SUBTOTAL(9,$B$2:$B$10)+SUM($D$20:$D$21)",
  'IF(SUBTOTAL(103,$B$3:$B$3)=1,"in view","not")',
];

function cellXml(address: string, content: number | string): string {
  if (typeof content === "number") return `<c r="${address}"><v>${content}</v></c>`;
  if (!content.startsWith("=")) return `<c r="${address}" t="str"><v>${content}</v></c>`;
  return `<c r="${address}"><f>${content.slice(1).replaceAll("&", "&amp;").replaceAll("<", "&lt;")}</f></c>`;
}

/** The list with its filter, and every call on a sheet of its own; `withVane` keeps the call that LibreOffice lacks. */
function filteredFile(isTable: boolean, { withVane }: { readonly withVane: boolean }): Uint8Array {
  const rows = ROWS.map(([row, hidden, cells]) => {
    const inside = Object.entries(cells).map(([column, content]) =>
      cellXml(`${column}${row}`, !withVane && String(content).includes("VANE") ? 200 : content),
    );
    return `<row r="${row}"${hidden ? ' hidden="1"' : ""}>${inside.join("")}</row>`;
  }).join("");
  const calls = ALL.map((call, index) => {
    const onList = call.replaceAll(/(\$?[A-H]\$?\d+|\$A:)/g, "List!$1").replaceAll(/:List!/g, ":");
    return `<row r="${index + 1}">${cellXml(`A${index + 1}`, `=${onList}`)}</row>`;
  }).join("");
  const filter =
    '<autoFilter ref="A1:B10"><filterColumn colId="0"><filters><filter val="supply"/></filters></filterColumn></autoFilter>';
  const parts = plainParts("");
  const sheet = (data: string, more: string) =>
    `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheetData>${data}</sheetData>${more}</worksheet>`;
  const database = `<definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">List!$A$1:$B$10</definedName>`;
  const names = `<definedNames>${isTable ? "" : database}<definedName name="Readings">List!$D$20:$D$25</definedName></definedNames>`;
  return zipParts({
    ...parts,
    "[Content_Types].xml": (parts["[Content_Types].xml"] ?? "").replace(
      "</Types>",
      `<Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>${isTable ? '<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>' : ""}</Types>`,
    ),
    "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets><sheet name="List" sheetId="1" r:id="rId1"/><sheet name="Calls" sheetId="2" r:id="rId2"/></sheets>${names}</workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="${OFFICE}/worksheet" Target="worksheets/sheet2.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": sheet(
      rows,
      isTable ? '<tableParts count="1"><tablePart r:id="t1"/></tableParts>' : filter,
    ),
    "xl/worksheets/sheet2.xml": sheet(calls, ""),
    ...(isTable
      ? {
          "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="t1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
          "xl/tables/table1.xml": `<table xmlns="${MAIN}" id="1" name="Outlets" displayName="Outlets" ref="A1:B10" totalsRowShown="0">${filter}<tableColumns count="2"><tableColumn id="1" name="Kind"/><tableColumn id="2" name="cfm"/></tableColumns></table>`,
        }
      : {}),
  });
}

type Shown = number | string | boolean | null;

const shown = (value: unknown): Shown =>
  typeof value === "object" && value !== null ? (value as { readonly error: string }).error : (value as Shown);

/** What a workbook's formulas give in the file calculator, by sheet and address. */
function byCalculator(workbook: Workbook): (sheet: string, address: string) => Shown {
  const everything = workbook.sheets.flatMap(({ name }) =>
    [...cellsOf(readSheet(workbook, name))].map(({ row, column }) => ({ sheet: name, row, column })),
  );
  const { edits } = calculateXlsx(workbook, everything);
  const results = new Map(edits.map(({ sheet, address, value }) => [`${sheet}!${address}`, shown(value)]));
  return (sheet, address) => results.get(`${sheet}!${address}`) ?? shownIn(workbook)(sheet, address);
}

/** What a workbook's file stores. */
function shownIn(workbook: Workbook): (sheet: string, address: string) => Shown {
  return (sheet, address) => {
    const cell = [...cellsOf(readSheet(workbook, sheet))].find((one) => one.address === address);
    return shown(cell?.value ?? null);
  };
}

/** What the page shows of it. */
function byPage(workbook: Workbook): (sheet: string, row: number, column: number) => Shown {
  const model = createModel(workbookData(workbook).data);
  return (sheet, row, column) => {
    const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
    return model.getters.getEvaluatedCell({ sheetId, row: row - 1, col: column - 1 }).value ?? null;
  };
}

function expectSame(own: Shown, other: Shown, what: string): void {
  if (typeof own === "number" && typeof other === "number") {
    expect(Math.abs(own - other), what).toBeLessThanOrEqual(1e-12 * Math.max(1, Math.abs(other)));
  } else expect(own, what).toBe(other);
}

describe.each([
  ["a sheet's own filter", false],
  ["a table's filter", true],
])("SUBTOTAL over %s", (_what, isTable) => {
  const open = (withVane: boolean) => openWorkbook(filteredFile(isTable, { withVane }), "list.xlsx");

  it("leaves out what the filter hides, other subtotals, and from 101 on what a person hides", () => {
    const result = byCalculator(open(true));
    const value = (call: string) => result("Calls", `A${ALL.indexOf(call) + 1}`);
    // 110 and 400 × 0.5; 220.5 and the error are filtered out, and what follows are subtotals and text.
    for (const number of [9, 109]) expect(value(`SUBTOTAL(${number},$B$2:$B$10)`)).toBe(310);
    expect(result("List", "B6")).toBe(310);
    expect(value("SUBTOTAL(3,$B$2:$B$10)")).toBe(3);
    // 4, 8, 0, −3, 16 and a blank, of which 8 and 16 are hidden by hand.
    expect(value("SUBTOTAL(9,$D$20:$D$25)")).toBe(25);
    expect(value("SUBTOTAL(109,$D$20:$D$25)")).toBe(1);
    expect(value("SUBTOTAL(1,$D$20:$D$25)")).toBe(5);
    expect(value("SUBTOTAL(102,$D$20:$D$25)")).toBe(3);
    expect(value("SUBTOTAL(1,$H$2:$H$9)")).toBe("#DIV/0!");
  });

  it("gives the page the same results", () => {
    const workbook = open(true);
    const [own, page] = [byCalculator(workbook), byPage(workbook)];
    // The page counts what AGGREGATE gave as a number, so that cell stays blank here: the file has no result for it.
    for (const [index, call] of ALL.entries())
      expectSame(page("Calls", index + 1, 1), own("Calls", `A${index + 1}`), call);
  });
});

describe("SUBTOTAL in LibreOffice", () => {
  const own = new Map<string, Workbook>();
  let other = new Map<string, Workbook>();

  beforeAll(async () => {
    const files = new Map([
      ["own-filter", filteredFile(false, { withVane: false })],
      ["table", filteredFile(true, { withVane: false })],
    ]);
    for (const [name, bytes] of files) own.set(name, openWorkbook(bytes, `${name}.xlsx`));
    other = new Map(
      [...(await recalculated(files))].map(([name, bytes]) => [name, openWorkbook(bytes, `${name}.xlsx`)]),
    );
  }, 180_000);

  it.each(["own-filter", "table"])("gives what the file calculator gives: %s", (name) => {
    const [ours, theirs] = [own.get(name), other.get(name)];
    if (ours === undefined || theirs === undefined) throw new Error(`There is no ${name}.`);
    const [calculated, stored] = [byCalculator(ours), shownIn(theirs)];
    for (const [index, call] of ALL.entries()) {
      expectSame(calculated("Calls", `A${index + 1}`), stored("Calls", `A${index + 1}`), call);
    }
  });

  it("calculates its own filtered list to what we calculate from the file that it makes", async () => {
    const bytes = (await madeByLibreOffice(new Map([["filtered", new TextEncoder().encode(FILTERED_DOCUMENT)]]))).get(
      "filtered",
    );
    const workbook = openWorkbook(bytes ?? new Uint8Array(), "filtered.xlsx");
    const sheet = readSheet(workbook, "Outlets");
    expect([1, 2, 3, 4, 5, 6, 8, 9].map((row) => rowStateAt(sheet, row))).toEqual([
      "shown",
      "shown",
      "filtered",
      "shown",
      "filtered",
      "shown",
      "hidden",
      "shown",
    ]);
    const calculated = byCalculator(workbook);
    const formulas = [...formulaCellsOf(readSheet(workbook, "Sums"))];
    expect(formulas).toHaveLength(NUMBERS.length);
    for (const { address, value, formula } of formulas)
      expectSame(calculated("Sums", address), shown(value), formula.text);
  }, 180_000);
});

const documentRow = (visibility: string, ...cells: readonly (number | string)[]) =>
  `<table:table-row table:visibility="${visibility}">${cells
    .map((cell) =>
      typeof cell === "number"
        ? `<table:table-cell office:value-type="float" office:value="${cell}"/>`
        : `<table:table-cell office:value-type="string"><text:p>${cell}</text:p></table:table-cell>`,
    )
    .join("")}</table:table-row>`;

/** A document of LibreOffice: a list filtered to its supplies, and below it one row of three that was hidden by hand. */
const FILTERED_DOCUMENT = `<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:body><office:spreadsheet>
<table:table table:name="Outlets">${[
  documentRow("visible", "Kind", "cfm"),
  documentRow("visible", "supply", 110.5),
  documentRow("filter", "return", 220),
  documentRow("visible", "supply", 95),
  documentRow("filter", "exhaust", 60),
  documentRow("visible", "supply", 130),
  documentRow("visible", "", 7),
  documentRow("collapse", "", 11),
  documentRow("visible", "", 13),
].join("")}</table:table>
<table:table table:name="Sums">${NUMBERS.map(
  (number) =>
    `<table:table-row><table:table-cell table:formula="of:=SUBTOTAL(${number};[$Outlets.$B$2:.$B$9])"/></table:table-row>`,
).join("")}</table:table>
<table:database-ranges><table:database-range table:name="__Anonymous_Sheet_DB__0" table:target-range-address="Outlets.A1:Outlets.B6" table:display-filter-buttons="true"><table:filter><table:filter-condition table:field-number="0" table:value="supply" table:operator="="/></table:filter></table:database-range></table:database-ranges>
</office:spreadsheet></office:body></office:document>`;
