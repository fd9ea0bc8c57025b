import { expect, it } from "vitest";
import { createModel, typedFormula } from "../../src/engine/index.js";

/** What the page shows for a formula that is typed beside A1 = 3. */
function shown(formula: string): unknown {
  const model = createModel({
    sheets: [{ id: "one", name: "Sheet1", colNumber: 5, rowNumber: 5, cells: { A1: "3" } }],
  });
  model.dispatch("UPDATE_CELL", { sheetId: "one", col: 1, row: 0, content: typedFormula(formula, 1, 2) });
  return model.getters.getEvaluatedCell({ sheetId: "one", col: 1, row: 0 }).value;
}

it("binds a sign tighter than a power in what is typed, as spreadsheet programs do", () => {
  expect(shown("=-A1^2")).toBe(9);
  expect(shown("=2-A1^2")).toBe(-7);
  expect(shown("=-2^2+A1")).toBe(7);
  expect(shown("=-(A1^2)")).toBe(-9);
});

it("leaves every other formula and text as it was typed", () => {
  for (const text of ["=A1-1", "=A1^2", "-3^2", "=SUM(A1,"]) expect(typedFormula(text, 1, 2)).toBe(text);
});
