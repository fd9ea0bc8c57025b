import { describe, expect, it } from "vitest";
import { formulaTrouble, respelledFormulas } from "../../src/workbook/index.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet } from "../../src/xlsx/index.js";
import { formulaWorkbook } from "./handoff/formula-workbook.js";

describe("a call that Excel took for one of another workbook", () => {
  it("is entered again as one of ours, and other references to that workbook stay", () => {
    expect(formulaTrouble("=[2]!_xldudf_VANE_AIRFLOW(B3,C3)+[2]Rooms!A1", "#NAME?")).toEqual({
      kind: "stuck",
      typed: "=VANE.AIRFLOW(B3,C3)+[2]Rooms!A1",
    });
  });

  it("is left alone where it is none of ours", () => {
    expect(formulaTrouble("=[2]!_xldudf_OTHER_AIRFLOW(B3,C3)", "#NAME?")).toBeNull();
  });
});

describe("formulas of a file that Excel does not read as calls of ours", () => {
  const given = openWorkbook(
    formulaWorkbook({
      A1: 400,
      A2: 410,
      B1: { formula: "VANE.AIRFLOW(A1,0.5)*2" },
      B2: { formula: "[3]!_xldudf_VANE_AIRFLOW(A2,0.5)" },
      B3: { formula: "VANE.AIRFLOW(A1:A2,0.5)" },
      B4: { formula: "_xldudf_VANE_AIRFLOW(A1,0.5)" },
      B5: { formula: 'A1&" VANE.AIRFLOW("' },
      D1: { formula: "VANE.AIRFLOW(A1:A2,0.5)", array: "D1:D2" },
    }),
    "typed.xlsx",
  );

  it("are spelled as Excel stores them, and no other is touched", () => {
    const sheet = readSheet(openWorkbook(patchWorkbook(given, respelledFormulas(given)), "typed.xlsx"), "Sheet1");
    const formula = (at: string) => cellAt(sheet, at)?.formula;
    expect(respelledFormulas(given).map(({ address }) => address)).toEqual(["B1", "D1", "B2", "B3"]);
    expect(formula("B1")).toMatchObject({ text: "_xldudf_VANE_AIRFLOW(A1,0.5)*2", kind: "array", isDynamic: true });
    expect(formula("B2")).toMatchObject({ text: "_xldudf_VANE_AIRFLOW(A2,0.5)", isDynamic: true });
    expect(formula("D1")).toMatchObject({ text: "_xldudf_VANE_AIRFLOW(A1:A2,0.5)", kind: "array", isDynamic: false });
  });

  it("keep to their one cell where they would begin to fill others", () => {
    const sheet = readSheet(openWorkbook(patchWorkbook(given, respelledFormulas(given)), "typed.xlsx"), "Sheet1");
    expect(cellAt(sheet, "B3")?.formula).toMatchObject({ text: "_xldudf_VANE_AIRFLOW(A1:A2,0.5)", kind: "plain" });
  });
});
