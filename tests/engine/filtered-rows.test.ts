import { describe, expect, it } from "vitest";
import { createModel } from "../../src/engine/index.js";

/** Rows 3 and 5 hidden by a filter of the file, row 6 by hand, of six that hold 1, 2, 4, 8, 16, 32. */
function filteredModel(data?: object) {
  const hidden = { isHidden: true };
  const cells = Object.fromEntries([1, 2, 4, 8, 16, 32].map((value, index) => [`A${index + 1}`, String(value)]));
  const sums = { C1: "=SUBTOTAL(9,A1:A6)", C2: "=SUBTOTAL(109,A1:A6)" };
  const rows = { 2: hidden, 4: hidden, 5: hidden };
  const sheet = { id: "s", name: "S", colNumber: 5, rowNumber: 20, cells: { ...cells, ...sums }, rows };
  const model = createModel(data ?? { sheets: [{ ...sheet, filteredRows: [2, 4] }] });
  const sum = (row: number, sheetId = "s") => model.getters.getEvaluatedCell({ sheetId, col: 2, row }).value;
  return { model, sums: () => [sum(0), sum(1)], sum };
}

describe("rows that a filter of the file hides", () => {
  it("are left out of every SUBTOTAL in the page, rows hidden by hand of those from 101 on", () => {
    expect(filteredModel().sums()).toEqual([1 + 2 + 8 + 32, 1 + 2 + 8]);
  });

  it("stay so when rows above them come and go, and when that is undone", () => {
    const { model, sum } = filteredModel();
    const rows = { dimension: "ROW", sheetId: "s", sheetName: "S" } as const;
    model.dispatch("ADD_COLUMNS_ROWS", { ...rows, base: 1, position: "before", quantity: 2 });
    expect(sum(0)).toBe(43);
    model.dispatch("REMOVE_COLUMNS_ROWS", { ...rows, elements: [1, 3, 4] });
    expect(sum(0)).toBe(1 + 8 + 32);
    model.dispatch("REQUEST_UNDO");
    expect(sum(0)).toBe(43);
    model.dispatch("ADD_COLUMNS_ROWS", { ...rows, base: 7, position: "after", quantity: 1 });
    model.dispatch("ADD_COLUMNS_ROWS", { ...rows, dimension: "COL", base: 3, position: "after", quantity: 1 });
    expect(sum(0)).toBe(43);
  });

  it("count again once a person brings them into view, and as hidden by hand when hidden anew", () => {
    const { model, sums } = filteredModel();
    const row = { dimension: "ROW" as const, sheetId: "s", elements: [2] };
    model.dispatch("UNHIDE_COLUMNS_ROWS", row);
    expect(sums()).toEqual([47, 15]);
    model.dispatch("HIDE_COLUMNS_ROWS", row);
    expect(sums()).toEqual([47, 11]);
  });

  it("are kept with the workbook and on a copy of the sheet", () => {
    const { model, sum } = filteredModel();
    model.dispatch("DUPLICATE_SHEET", { sheetId: "s", sheetIdTo: "copy", sheetNameTo: "Copy" });
    expect(sum(0, "copy")).toBe(43);
    const again = filteredModel(model.exportData());
    expect([again.sum(0), again.sum(0, "copy")]).toEqual([43, 43]);
    again.model.dispatch("DELETE_SHEET", { sheetId: "s", sheetName: "S" });
    expect(again.sum(0, "copy")).toBe(43);
  });
});
