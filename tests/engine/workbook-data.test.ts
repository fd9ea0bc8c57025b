import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { createModel, workbookData } from "../../src/engine/index.js";
import { TEMPLATES as PLANS } from "../../src/workbook/index.js";
import { formulaCellsOf, openWorkbook, parseAddress, readSheet, type Workbook } from "../../src/xlsx/index.js";
import { cellUnder } from "../support/plan-places.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

const TEMPLATES = readdirSync("templates").filter((name) => name.endsWith(".xlsx"));

function open(name: string): Workbook {
  return openWorkbook(readFileSync(join("templates", name)), name);
}

function shownIn(workbook: Workbook) {
  const { data, kept } = workbookData(workbook);
  const model = createModel(data);
  const place = (sheet: string, col: number, row: number) => ({
    sheetId: model.getters.getSheetIdByName(sheet) ?? "",
    col: col - 1,
    row: row - 1,
  });
  return {
    model,
    kept,
    value: (sheet: string, column: number, row: number) => {
      const { value } = model.getters.getEvaluatedCell(place(sheet, column, row));
      return value ?? "";
    },
    style: (sheet: string, column: number, row: number) =>
      model.getters.getCellComputedStyle(place(sheet, column, row)),
    type: (sheet: string, address: string, content: string) => {
      const { row, column } = parseAddress(address) ?? { row: 0, column: 0 };
      return model.dispatch("UPDATE_CELL", { ...place(sheet, column, row), content });
    },
  };
}

describe("a workbook file in the engine", () => {
  it.each(TEMPLATES)("calculates every formula of %s to the result that the file stores", (name) => {
    const workbook = open(name);
    const { value, kept } = shownIn(workbook);
    expect(kept).toEqual([]);
    for (const { name: sheet } of workbook.sheets) {
      for (const cell of formulaCellsOf(readSheet(workbook, sheet))) {
        const stored = typeof cell.value === "object" && cell.value !== null ? cell.value.error : (cell.value ?? "");
        const shown = value(sheet, cell.column, cell.row);
        if (typeof stored === "number") expect(shown, `${sheet}!${cell.address}`).toBeCloseTo(stored, 9);
        else expect(shown, `${sheet}!${cell.address}`).toBe(stored);
      }
    }
  });

  it("shows inputs, headings and what stays in view as the file says", () => {
    const { model, style } = shownIn(open("room-balance.xlsx"));
    expect(style("Outlets", 1, 9).fillColor).toBe("#FFF6DC");
    expect(style("Outlets", 1, 8)).toMatchObject({
      bold: true,
      fillColor: "#17414F",
      textColor: "#FFFFFF",
      align: "center",
    });
    const sheetId = model.getters.getSheetIdByName("Outlets") ?? "";
    expect(model.getters.getPaneDivisions(sheetId)).toEqual({ xSplit: 1, ySplit: 8 });
    // Sixteen characters of seven pixels, and two pixels more at each side than other programs keep free.
    expect(model.getters.getColSize(sheetId, 2)).toBe(16 * 7 + 4);
    expect(model.getters.getNamedRanges().map(({ name }) => name)).toContain("Job_LimitMinus");
  });

  it("colours a verdict as soon as the readings give one", () => {
    const { model, value, style, type } = shownIn(open("room-balance.xlsx"));
    const plan = PLANS["room-balance"]("");
    const column = (header: string) => parseAddress(cellUnder(plan, "Outlets", header, 9))?.column ?? 0;
    const entries = {
      Outlet: "S-1",
      Kind: "supply",
      "Width or diameter": "12",
      Height: "6",
      Factor: "0.75",
      "Design airflow": "100",
      R1: "200",
    };
    for (const [header, content] of Object.entries(entries))
      expect(type("Outlets", cellUnder(plan, "Outlets", header, 9), content).isSuccessful).toBe(true);
    expect(value("Outlets", column("Airflow"), 9)).toBeCloseTo((200 * 12 * 6 * 0.75) / 144, 9);
    expect(value("Outlets", column("Verdict"), 9)).toBe("low");
    expect(style("Outlets", column("Verdict"), 9)).toMatchObject({
      bold: true,
      fillColor: "#FCE0C2",
      textColor: "#7A3500",
    });
    expect(model.getters.getValidationRuleForCell({ sheetId: "sheet-2", col: 3, row: 8 })?.criterion).toMatchObject({
      type: "isValueInList",
      values: ["supply", "return", "exhaust", "outside air"],
    });
  });

  it("spells names, tables' neighbours and calls out, and keeps what it cannot calculate as it was stored", () => {
    const names = `<definedNames><definedName name="Area">Sheet1!$A$1</definedName><definedName name="Factor">0.75</definedName><definedName name="Local" localSheetId="0">Sheet1!$A$2*2</definedName><definedName name="Left">Sheet1!A1</definedName></definedNames>`;
    const rows = `<row r="1"><c r="A1"><v>2</v></c><c r="B1"><f>Area*Factor</f><v>9</v></c><c r="C1"><f>Local+1</f><v>9</v></c></row>
      <row r="2"><c r="A2"><v>1e-7</v></c><c r="B2"><f>_xldudf_VANE_AIRFLOW(400,A1)</f><v>9</v></c><c r="C2"><f>[1]Other!A1</f><v>42</v></c></row>
      <row r="3"><c r="A3" t="str"><v>=1+1</v></c><c r="B3" t="str"><v>0012</v></c><c r="C3"><f>MAP(A1,LAMBDA(x,x))</f><v>7</v></c></row>
      <row r="4"><c r="A4"><f t="array" ref="A4:A5">A1:A2*10</f><v>20</v></c><c r="B4" t="e"><v>#N/A</v></c><c r="C4" t="b"><v>1</v></c></row>
      <row r="5"><c r="A5"><v>1E-6</v></c></row>`;
    const workbookPart = `<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Sheet1" sheetId="1" r:id="rId1"/></sheets>${names}</workbook>`;
    const { value, kept } = shownIn(
      openWorkbook(plainWorkbook(rows, { "xl/workbook.xml": workbookPart }), "names.xlsx"),
    );
    const row = (number: number) => [1, 2, 3].map((column) => value("Sheet1", column, number));
    expect(row(1)).toEqual([2, 1.5, 1 + 2e-7]);
    expect(row(2)).toEqual([1e-7, 800, 42]);
    expect(row(3)).toEqual(["=1+1", "0012", 7]);
    expect(row(4)).toEqual([20, "#N/A", true]);
    expect(value("Sheet1", 1, 5)).toBeCloseTo(1e-6, 12);
    expect(kept.map(({ address }) => address)).toEqual(["C2", "C3"]);
  });
});
