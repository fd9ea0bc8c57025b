import ExcelJS from "exceljs";
import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../src/engine/index.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../src/xlsx/index.js";

async function workbookWith(fill: (workbook: ExcelJS.Workbook) => void): Promise<Workbook> {
  const made = new ExcelJS.Workbook();
  fill(made);
  return openWorkbook(new Uint8Array(await made.xlsx.writeBuffer()), "job.xlsx");
}

const formula = (text: string, result?: number | string) => ({ formula: text, result }) as ExcelJS.CellFormulaValue;

describe("calculating a workbook file", () => {
  it("fills in the results of calls in both spellings and of what depends on them, and nothing else", async () => {
    const workbook = await workbookWith((made) => {
      const sheet = made.addWorksheet("Job");
      sheet.getRow(1).values = ["Width", "Height", "r1", "r2", "cfm", "more", "other"];
      sheet.getRow(2).values = [14, 6, 400, 400];
      sheet.getCell("E2").value = formula("_xldudf_VANE_AIRFLOW_FACE(A2,B2,C2:D2,,COUNT(C2:D2))");
      sheet.getCell("F2").value = formula("VANE.AIRFLOW.FACE(A2,B2,C2:D2)-25", 7);
      sheet.getCell("G2").value = formula("A2*100", 5);
    });
    const { edits, kept } = calculateXlsx(workbook);
    expect(kept).toEqual([]);
    expect(edits).toEqual([
      { kind: "result", sheet: "Job", address: "E2", value: 175 },
      { kind: "result", sheet: "Job", address: "F2", value: 150 },
    ]);
    const patched = openWorkbook(patchWorkbook(workbook, edits), "job.xlsx");
    const sheet = readSheet(patched, "Job");
    expect([cellAt(sheet, "E2")?.value, cellAt(sheet, "F2")?.value, cellAt(sheet, "G2")?.value]).toEqual([175, 150, 5]);
    expect(calculateXlsx(patched).edits).toEqual([]);
  });

  it("reads references to tables and defined names", async () => {
    const workbook = await workbookWith((made) => {
      const sheet = made.addWorksheet("Rooms");
      sheet.addTable({
        name: "Outlets",
        ref: "A1",
        headerRow: true,
        columns: [{ name: "Velocity" }, { name: "Area" }, { name: "cfm" }],
        rows: [
          [400, 2, null],
          [300, 1, null],
        ],
      });
      for (const row of [2, 3]) {
        sheet.getCell(`C${row}`).value = formula(
          "VANE.AIRFLOW(Outlets[[#This Row],[Velocity]],Outlets[[#This Row],[Area]])*Share",
        );
      }
      sheet.getCell("E1").value = formula("SUM(Outlets[cfm])");
      sheet.getCell("G1").value = 0.5;
      made.definedNames.add("Rooms!$G$1", "Share");
    });
    const { edits } = calculateXlsx(workbook);
    expect(Object.fromEntries(edits.map(({ address, value }) => [address, value]))).toEqual({
      C2: 400,
      C3: 150,
      E1: 550,
    });
  });

  it("brings the totals row of a table up to date, a row hidden by hand left out", async () => {
    const workbook = await workbookWith((made) => {
      const sheet = made.addWorksheet("Rooms");
      const columns = [{ name: "Velocity" }, { name: "cfm", totalsRowFunction: "sum" as const }];
      const rows = [400, 300, 100].map((velocity) => [velocity, null]);
      sheet.addTable({ name: "Outlets", ref: "A1", headerRow: true, totalsRow: true, columns, rows });
      for (const row of [2, 3, 4]) sheet.getCell(`B${row}`).value = formula(`VANE.AIRFLOW(A${row},2)`, 1);
      sheet.getCell("B5").value = formula("SUBTOTAL(109,Outlets[cfm])", 3);
      sheet.getCell("D5").value = formula("B5/2", 1.5);
      sheet.getRow(3).hidden = true;
    });
    const { edits, kept } = calculateXlsx(workbook);
    expect(kept).toEqual([]);
    expect(Object.fromEntries(edits.map(({ address, value }) => [address, value]))).toEqual({
      B2: 800,
      B3: 600,
      B4: 200,
      B5: 1000,
      D5: 500,
    });
  });

  it("calculates LET and LAMBDA in the spelling that files store", async () => {
    const workbook = await workbookWith((made) => {
      const sheet = made.addWorksheet("Job");
      sheet.getCell("A1").value = formula("_xlfn.LET(_xlpm.v,VANE.AIRFLOW(400,2),_xlpm.v/2)", 1);
      sheet.getCell("B1").value = formula("_xlfn.LAMBDA(_xlpm.area,VANE.AIRFLOW(400,_xlpm.area))(3)", 1);
    });
    const { edits, kept } = calculateXlsx(workbook);
    expect(kept).toEqual([]);
    expect(edits.map(({ address, value }) => [address, value])).toEqual([
      ["A1", 400],
      ["B1", 1200],
    ]);
  });

  it("says which formula it left, where and why", async () => {
    const workbook = await workbookWith((made) => {
      const sheet = made.addWorksheet("Job");
      sheet.getCell("A1").value = formula('VANE.AIRFLOW(400,GETPIVOTDATA("Area",D1))', 800);
      sheet.getCell("B1").value = formula("VANE.OPENING.FREE(2,1.5)", 3);
    });
    const { edits, kept, errors } = calculateXlsx(workbook);
    expect(kept).toMatchObject([{ sheet: "Job", address: "A1", isOutdated: false }]);
    expect(kept[0]?.reason).toContain("GETPIVOTDATA");
    expect(edits.map(({ address }) => address)).toEqual(["B1"]);
    expect(errors).toMatchObject([{ address: "B1", error: "#VALUE!" }]);
    expect(errors[0]?.message).toContain("factor");
  });
});
