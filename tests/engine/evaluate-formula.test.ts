import { describe, expect, it } from "vitest";
import { cellFunctions, typedName } from "../../src/cells/index.js";
import { createModel, editCells, engineSpelling, evaluateFormula } from "../../src/engine/index.js";

describe("one formula calculated without a sheet", () => {
  it("gives a value, with or without the equals sign", () => {
    expect(evaluateFormula("=1+2")).toEqual({ kind: "value", value: 3 });
    expect(evaluateFormula(" 1+2 ")).toEqual({ kind: "value", value: 3 });
  });

  it("reads an array constant by rows, and gives a block by rows", () => {
    expect(evaluateFormula("={400,420;380,400}")).toEqual({
      kind: "block",
      rows: [
        [400, 420],
        [380, 400],
      ],
    });
  });

  it("spills a function over a block and keeps each error in its own cell", () => {
    const result = evaluateFormula("=VANE.AIRFLOW(A1:A3,2)", { A1: 500, A2: "door shut", A3: "=1/0" });
    expect(result.kind === "block" && result.rows).toEqual([
      [1000],
      [{ error: "#VALUE!", message: expect.stringContaining("door shut") }],
      [{ error: "#DIV/0!", message: expect.stringContaining("velocity is in error") }],
    ]);
  });

  it("tells the argument names where too few or too many are given", () => {
    expect(evaluateFormula("=VANE.AIRFLOW(400)")).toMatchObject({
      kind: "error",
      code: "#NAME?",
      message: expect.stringContaining("VANE.AIRFLOW(velocity, freeArea, [taken"),
    });
  });

  it.each([
    ["an unknown function", "=NOT.THERE(1)", "#NAME?", "NOT.THERE"],
    ["an unknown name", "=supply_total", "#NAME?", "cannot be read"],
    ["a broken formula", "=A1+", "#NAME?", "cannot be read"],
    ["a lost reference", "=#REF!+1", "#REF!", "reference"],
    ["a sheet that is not there", "=Rooms!A1", "#REF!", "Rooms"],
    ["a division by nothing", "=1/0", "#DIV/0!", "zero"],
    ["text where a number belongs", '=SUM(1,"x")', "#VALUE!", "x"],
    ["a number that no cell holds", "=1E308*10", "#NUM!", "too large"],
    ["an error typed as such", "=#N/A", "#N/A", ""],
  ])("names %s as Excel does", (_, formula, code, message) => {
    expect(evaluateFormula(formula)).toMatchObject({ kind: "error", code, message: expect.stringContaining(message) });
  });

  it("takes text for text, even where it looks like a number", () => {
    expect(evaluateFormula("=COUNT(A1:A2)", { A1: "500", A2: 3 })).toEqual({ kind: "value", value: 1 });
  });

  it("reads a doubled quote inside a text as Excel does", () => {
    expect(evaluateFormula('="12"" duct"')).toEqual({ kind: "value", value: '12" duct' });
    expect(evaluateFormula('="C:\\"')).toEqual({ kind: "value", value: "C:\\" });
  });
});

describe("the functions that the engine offers", () => {
  it("are those of the registry, under their typed and their stored names", () => {
    for (const declaration of cellFunctions) {
      const stored = `_xldudf_VANE_${declaration.id.replaceAll(".", "_")}`;
      expect(engineSpelling(`=1+${stored}(A1)`)).toBe(`=1+${typedName(declaration)}(A1)`);
    }
  });

  it("leave a name inside a text alone", () => {
    expect(engineSpelling('="_xldudf_VANE_AIRFLOW"')).toBe('="_xldudf_VANE_AIRFLOW"');
  });
});

describe("a batch of edits", () => {
  it("is calculated, and taken back in one step", () => {
    const model = createModel({
      sheets: [{ id: "s", name: "S", colNumber: 3, rowNumber: 9, cells: { A1: "1", B1: "=SUM(A1:A9)" } }],
    });
    const edits = [1, 2, 3].map((row) => ({ sheetId: "s", col: 0, row, content: "10" }));
    const total = () => model.getters.getEvaluatedCell({ sheetId: "s", col: 1, row: 0 }).value;
    editCells(model, edits);
    expect(total()).toBe(31);
    model.dispatch("REQUEST_UNDO");
    expect(total()).toBe(1);
  });
});
