import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { createModel } from "../../src/engine/create-model.js";
import { chooseRows, filteredRowsOf, workbookData } from "../../src/engine/index.js";
import { XLSX_TASKS } from "../../src/hosts/page/file/xlsx-tasks.js";
import {
  cellAt,
  filterEdits,
  openWorkbook,
  patchWorkbook,
  readSheet,
  rowStateAt,
  type TableFilter,
} from "../../src/xlsx/index.js";
import { plainWorkbook } from "./plain-workbook.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

const text = (address: string, value: string) => `<c r="${address}" t="inlineStr"><is><t>${value}</t></is></c>`;
/** A table of kinds and airflows, with an empty row that the file does not hold, and a subtotal below it. */
const ROWS = `<row r="1">${text("A1", "Kind")}${text("B1", "Airflow")}</row>
<row r="2">${text("A2", "supply")}<c r="B2"><v>100</v></c></row><row r="3" ht="20">${text("A3", "return")}<c r="B3"><v>70</v></c></row>
<row r="5">${text("A5", "Supply")}<c r="B5"><v>50</v></c></row>
<row r="7"><c r="B7"><f>SUBTOTAL(9,B2:B5)</f><v>220</v></c><c r="C7"><f>SUM(B2:B5)</f><v>220</v></c></row>`;

function fileWith(filter: string): Uint8Array {
  const sheet = `<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheetData>${ROWS}</sheetData><tableParts count="1"><tablePart r:id="a"/></tableParts></worksheet>`;
  const table = `<table xmlns="${MAIN}" id="1" name="Outlets" displayName="Outlets" ref="A1:B5">${filter}<tableColumns count="2"><tableColumn id="1" name="Kind"/><tableColumn id="2" name="Airflow"/></tableColumns></table>`;
  const rels = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`;
  return plainWorkbook("", { "xl/worksheets/_rels/sheet1.xml.rels": rels, "xl/tables/table1.xml": table }, sheet);
}

function filtered(filter: string, wanted: Partial<TableFilter>) {
  const workbook = openWorkbook(fileWith(filter), "test.xlsx");
  const whole = { sheet: "Sheet1", range: "A1:B5", choices: {}, hiddenRows: [], ...wanted };
  const after = openWorkbook(patchWorkbook(workbook, filterEdits(workbook, [whole])), "test.xlsx");
  const sheet = readSheet(after, "Sheet1");
  const [, element = ""] =
    /(<autoFilter.*?(?:\/>|<\/autoFilter>))<tableColumns/.exec(
      strFromU8(unzipSync(after.archive.bytes)["xl/tables/table1.xml"] ?? new Uint8Array()),
    ) ?? [];
  return { element, states: [2, 3, 4, 5].map((row) => rowStateAt(sheet, row)[0]).join(""), sheet };
}

const SUPPLY = { choices: { 0: ["supply", ""] }, hiddenRows: [3] };

describe("a filter put into a file", () => {
  it.each([
    ["has none", ""],
    ["has its buttons alone", '<autoFilter ref="A1:B5"/>'],
    ["has another", '<autoFilter ref="A1:B5"><filterColumn colId="0"><top10 val="2"/></filterColumn></autoFilter>'],
  ])("is written where the table %s", (_what, before) => {
    const { element, states, sheet } = filtered(before, SUPPLY);
    expect(element).toBe(
      '<autoFilter ref="A1:B5"><filterColumn colId="0"><filters blank="1"><filter val="supply"/></filters></filterColumn></autoFilter>',
    );
    expect(states).toBe("sfss");
    expect([...(sheet.tables[0]?.choices ?? [])]).toEqual([[0, ["", "supply"]]]);
  });

  it("hides rows that the file does not hold yet, and leaves the height of others", () => {
    const { states, sheet } = filtered("", { choices: { 1: ["100"] }, hiddenRows: [3, 4, 5] });
    expect(states).toBe("sfff");
    expect(cellAt(sheet, "B3")?.value).toBe(70);
  });

  it("keeps criteria that it does not know, hidden buttons, the order of sorting, and escapes what is special", () => {
    const top = '<filterColumn colId="1"><top10 val="2"/></filterColumn>';
    const sorted = '<sortState ref="A2:B5"><sortCondition ref="A2:A5"/></sortState>';
    const known = `<autoFilter ref="A1:B5"><filterColumn colId="0" hiddenButton="1"><filters><filter val="x"/></filters></filterColumn>${top}${sorted}</autoFilter>`;
    expect(filtered(known, { choices: { 0: ['a & "b" <c>'], 1: null } }).element).toBe(
      `<autoFilter ref="A1:B5"><filterColumn colId="0"><filters><filter val="a &amp; &quot;b&quot; &lt;c&gt;"/></filters></filterColumn>${top}${sorted}</autoFilter>`,
    );
    expect(filtered(known, { choices: { 1: null } }).element).toBe(
      `<autoFilter ref="A1:B5"><filterColumn colId="0" hiddenButton="1"/>${top}${sorted}</autoFilter>`,
    );
  });

  it("is taken out again, and every row is shown", () => {
    const known =
      '<autoFilter ref="A1:B5"><filterColumn colId="0"><filters><filter val="x"/></filters></filterColumn></autoFilter>';
    expect(filtered(known, {})).toMatchObject({ element: '<autoFilter ref="A1:B5"/>', states: "ssss" });
  });

  it("is refused where the file has no such table", () => {
    expect(() => filtered("", { range: "C1:D5" })).toThrow(/has no table at C1:D5/);
  });

  it("brings SUBTOTAL up to date in the file, and no sum changes", () => {
    const { bytes } = XLSX_TASKS.patch(fileWith(""), "test.xlsx", [], {
      filters: [{ sheet: "Sheet1", range: "A1:B5", ...SUPPLY }],
    });
    const sheet = readSheet(openWorkbook(bytes, "test.xlsx"), "Sheet1");
    expect(cellAt(sheet, "B7")?.value).toBe(150);
    expect(cellAt(sheet, "C7")?.value).toBe(220);
  });
});

describe("rows chosen in the grid", () => {
  const grid = () => createModel(workbookData(openWorkbook(fileWith(""), "test.xlsx")).data);
  type Grid = ReturnType<typeof grid>;
  const sheetIdOf = ({ getters }: Grid) => getters.getActiveSheetId();
  const value = (model: Grid, col: number) =>
    model.getters.getEvaluatedCell({ sheetId: sheetIdOf(model), col, row: 6 }).value;
  const zone = { top: 0, bottom: 4, left: 0, right: 1 };
  const choose = (model: Grid, hidden: readonly number[]) =>
    chooseRows(model, {
      sheetId: sheetIdOf(model),
      zone,
      hasButtons: false,
      choices: hidden.length > 0 ? { 0: ["supply"] } : {},
      hidden,
    });

  it("leave the others out of SUBTOTAL and in every sum, and come back by one undo", () => {
    const model = grid();
    choose(model, [2]);
    expect([value(model, 1), value(model, 2)]).toEqual([150, 220]);
    expect(filteredRowsOf(model, sheetIdOf(model))).toEqual([2]);
    model.dispatch("REQUEST_UNDO");
    expect([value(model, 1), value(model, 2)]).toEqual([220, 220]);
    expect(filteredRowsOf(model, sheetIdOf(model))).toEqual([]);
    model.dispatch("REQUEST_REDO");
    expect(filteredRowsOf(model, sheetIdOf(model))).toEqual([2]);
    choose(model, []);
    expect(filteredRowsOf(model, sheetIdOf(model))).toEqual([]);
    expect(value(model, 1)).toBe(220);
  });

  it("never show a row that a person hid", () => {
    const model = grid();
    model.dispatch("HIDE_COLUMNS_ROWS", { sheetId: sheetIdOf(model), dimension: "ROW", elements: [2] });
    choose(model, [2, 3]);
    expect(filteredRowsOf(model, sheetIdOf(model))).toEqual([3]);
    choose(model, []);
    expect(model.getters.isRowHidden(sheetIdOf(model), 2)).toBe(true);
  });
});
