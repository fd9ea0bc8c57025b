import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { Model } from "@odoo/o-spreadsheet";
import { describe, expect, it } from "vitest";
import { createModel, DATA_VERSION, modelInSteps, workbookData } from "../../src/engine/index.js";
import { openWorkbook } from "../../src/xlsx/index.js";

const TEMPLATES = readdirSync("templates").filter((name) => name.endsWith(".xlsx"));

/** More rows than a formula may read before those that it reads were calculated. */
const ROWS = 1_500;

const sheet = { id: "s", name: "Sheet1", colNumber: 10, rowNumber: ROWS + 10 };

/** As the library itself makes it, in one go. */
function madeAtOnce(data: object): Model {
  createModel({});
  return new Model(structuredClone(data), {}, [], undefined, false);
}

/** All that a model says of its cells, and of the rows in which they stand. */
function shownBy({ getters }: Model) {
  const sheets = getters.getSheetIds().map((sheetId) => {
    const rows = Array.from({ length: getters.getNumberRows(sheetId) }, (_, row) => row);
    const places = getters.getEvaluatedCellsPositions(sheetId).sort((a, b) => a.col - b.col || a.row - b.row);
    return {
      cells: places.map((place) => {
        const { value, format, formattedValue, type, message } = getters.getEvaluatedCell(place);
        return { ...place, value, format, formattedValue, type, message: message?.toString() };
      }),
      heights: rows.map((row) => getters.getRowSize(sheetId, row)),
      starts: rows.map((row) => getters.getRowDimensions(sheetId, row).start),
      spread: places.map((place) => getters.getSpreadZone(place)),
    };
  });
  const tracked = getters.getCellsWithTrackedFormula("SUBTOTAL" as never) as unknown as readonly number[];
  return {
    sheets,
    tracked: tracked.map((id) => getters.getCellPosition(id)).sort((a, b) => a.col - b.col || a.row - b.row),
  };
}

/** All of a model's data; each calls its state by a name of its own. */
function exportedBy(model: Model): object {
  return { ...model._exportData(false), revisionId: "" };
}

function expectSame(data: object): void {
  const [model, other] = [createModel(structuredClone(data)), madeAtOnce(data)];
  expect(exportedBy(model)).toEqual(exportedBy(other));
  expect(shownBy(model)).toEqual(shownBy(other));
  const sheetId = model.getters.getActiveSheetId();
  expect(other.getters.getActiveSheetId()).toBe(sheetId);
  for (const one of [model, other]) one.dispatch("UPDATE_CELL", { sheetId, col: 1, row: 1, content: "7" });
  expect(shownBy(model)).toEqual(shownBy(other));
  for (const one of [model, other]) one.dispatch("REQUEST_UNDO");
  expect(exportedBy(model)).toEqual(exportedBy(other));
  expect(shownBy(model)).toEqual(shownBy(other));
}

const manyRows = Object.fromEntries(
  Array.from({ length: ROWS }, (_, index) => [
    [`A${index + 3}`, String(index)],
    [`B${index + 3}`, `=A${index + 3}*2`],
  ]).flat(),
);

describe("a workbook that is made in steps", () => {
  it.each(TEMPLATES)("is what the library makes of %s in one go", (name) => {
    expectSame(workbookData(openWorkbook(readFileSync(join("templates", name)), name)).data);
  });

  const cases: Readonly<Record<string, object>> = {
    "totals above many rows, and totals of totals": {
      ...sheet,
      cells: {
        ...manyRows,
        C1: "=D1+1",
        D1: `=SUM(B3:B${ROWS + 2})`,
        E1: "=SUM(A:A)",
        F1: `=SUBTOTAL(9,B3:B${ROWS + 2})`,
      },
    },
    "results that fill cells, and what reads them": {
      ...sheet,
      cells: { A1: "=SUM(D1:D9)", D1: "=SEQUENCE(3)", E1: "=D2*2", F1: "=SUM(A1:A9)" },
    },
    "two results that would fill the same cells": {
      ...sheet,
      cells: { ...manyRows, D5: "=TRANSPOSE(A1:A4)", F3: `=SEQUENCE(3)+0*SUM(B3:B${ROWS + 2})`, E9: "=F4" },
    },
    "formulas in a circle, errors and what is no formula": {
      ...sheet,
      cells: { A1: "=B1", B1: "=A1", C1: "=1/0", D1: "=C1", E1: "=NOSUCH(1)", F1: "=(", G1: "'=1" },
    },
    "merged cells over contents and looks": {
      ...sheet,
      cells: { A1: "Title", B1: "under", C1: "=1+1", A5: "1" },
      styles: { A1: 1, "B1:C1": 2, "A5:A6": 2 },
      formats: { "B1:C2": 1 },
      merges: ["A1:C1", "A5:B6"],
    },
    "tall rows": {
      ...sheet,
      cells: { A1: "big", A2: "one\ntwo", A3: "a long text that is broken into many lines", A4: "=1", B4: "usual" },
      styles: { "A1:B1": 1, A3: 3, A4: 1 },
      rows: { 8: { size: 60 } },
    },
    "cells beyond its size": { ...sheet, rowNumber: 3, cells: { A1: "1", L9: "=A1" } },
  };
  it.each(Object.entries(cases))("is what the library makes of %s", (_, one) => {
    const styles = { 1: { bold: true, fontSize: 30 }, 2: { fillColor: "#ff0000" }, 3: { wrapping: "wrap" } };
    const other = { id: "t", name: "Other", colNumber: 5, rowNumber: 9, cells: { A1: "=Sheet1!A1", B2: "text" } };
    expectSame({ version: DATA_VERSION, styles, formats: { 1: "0.00%" }, sheets: [one, other] });
  });

  it("is made of what an earlier release or the library's short form kept", () => {
    const cells = { A1: "1", A2: "2", B1: "=A1*2", B2: "=A2*2" };
    const kept = createModel({ version: DATA_VERSION, sheets: [{ ...sheet, cells }] })._exportData(true);
    for (const data of [kept, { ...kept, version: "18.4" }]) {
      const { getters } = createModel(structuredClone(data));
      expect(getters.getEvaluatedCell({ sheetId: "s", col: 1, row: 1 }).value).toBe(4);
    }
  });

  it("takes many steps where it has many cells", () => {
    let count = 0;
    const steps = modelInSteps({ version: DATA_VERSION, sheets: [{ ...sheet, cells: manyRows }] }, {});
    while (steps.next().done !== true) count += 1;
    expect(count).toBeGreaterThan(ROWS / 50);
  });
});
