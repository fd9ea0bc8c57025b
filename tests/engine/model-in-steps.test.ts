import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { helpers, Model } from "@odoo/o-spreadsheet";
import { describe, expect, it } from "vitest";
import {
  createModel,
  DATA_VERSION,
  exportInSteps,
  inOneGo,
  modelInSteps,
  unpackedCells,
  workbookData,
} from "../../src/engine/index.js";
import { openWorkbook } from "../../src/xlsx/index.js";

const TEMPLATES = readdirSync("templates").filter((name) => name.endsWith(".xlsx"));

/** More rows than a formula may read before those that it reads were calculated. */
const ROWS = 1_500;

const sheet = { id: "s", name: "Sheet1", colNumber: 10, rowNumber: ROWS + 10 };

/** As the library itself makes it, in one go. */
function madeAtOnce(data: object): Model {
  createModel({});
  const { sheets = [] } = data as { readonly sheets?: readonly { readonly cells: object }[] };
  const unpacked = sheets.map((one) => ({ ...one, cells: inOneGo(unpackedCells(one.cells as never)) }));
  return new Model(structuredClone({ ...data, sheets: unpacked }), {}, [], undefined, false);
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

type Zones = Readonly<Record<string, number>>;

interface Exported {
  readonly sheets: readonly { readonly cells: object; readonly styles: Zones; readonly formats: Zones }[];
  readonly styles: Readonly<Record<string, unknown>>;
  readonly formats: Readonly<Record<string, unknown>>;
}

/** What each cell looks like, in whichever blocks that is written. */
function looksOf(exported: Exported, list: "styles" | "formats") {
  return exported.sheets.map((one) =>
    Object.entries(one[list])
      .flatMap(([range, number]) => {
        const { left, top, right, bottom } = helpers.toZone(range);
        const count = (right - left + 1) * (bottom - top + 1);
        return Array.from({ length: count }, (_, index) => {
          const [col, row] = [left + (index % (right - left + 1)), top + Math.floor(index / (right - left + 1))];
          return [helpers.toXC(col, row), exported[list][number]] as const;
        });
      })
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}

/** What is taken out of a model in steps is what the library takes out of it. */
function expectSameExport(model: Model): void {
  const [own, other] = [inOneGo(exportInSteps(model)), model._exportData(false)] as unknown as [Exported, Exported];
  for (const list of ["styles", "formats"] as const) expect(looksOf(own, list)).toEqual(looksOf(other, list));
  const unnumbered = (exported: Exported) => ({
    ...exported,
    styles: {},
    formats: {},
    sheets: exported.sheets.map((one) => ({ ...one, styles: {}, formats: {} })),
  });
  expect(unnumbered(own)).toEqual(unnumbered(other));
  expect(own.sheets.map(({ cells }) => Object.keys(cells))).toEqual(
    other.sheets.map(({ cells }) => Object.keys(cells)),
  );
  // The workbook is as before.
  expect(model._exportData(false)).toEqual(other);
}

function expectSame(data: object): void {
  const [model, other] = [createModel(structuredClone(data)), madeAtOnce(data)];
  expect(exportedBy(model)).toEqual(exportedBy(other));
  expectSameExport(model);
  expect(shownBy(model)).toEqual(shownBy(other));
  const sheetId = model.getters.getActiveSheetId();
  expect(other.getters.getActiveSheetId()).toBe(sheetId);
  for (const one of [model, other]) one.dispatch("UPDATE_CELL", { sheetId, col: 1, row: 1, content: "7" });
  expect(shownBy(model)).toEqual(shownBy(other));
  expectSameExport(model);
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

  /** Texts with "#" for the row, "<" for the row above: as they are filled down. */
  const filledDown = [
    "=A#*2",
    "=$A#+A$3+$A$3+sum( A#:B# )",
    "=SUM(A$3:A#)",
    "=SUM(A#:A$5)",
    "=SUM($A$3:$A$9)-SUM(A:A)-SUM($A:$B)-SUM(3:3)-SUM($3:#)",
    "=SUM(B#:A#)",
    "=SUM(A#:A#)",
    "=Other!A#&'Other'!$A$1&Missing!A#",
    "=SUM(Other!A#:B#)+SUM(Other!A$1:B#)",
    '=IF(A#>4,"A#:B$1","it""s A#")&TOTAL&A#',
    "=COUNT(A#:A<)",
    "=ROW(A#)+OFFSET(A#,1,0)",
    "=#REF!+A#",
    "=A#+",
    "=NOSUCH(A#)",
    "=1",
  ];

  it("is what the library makes of formulas that are filled down", () => {
    const rows = [3, 4, 5, 6, 9, 2];
    const cells: Record<string, string> = {};
    for (const row of rows) {
      cells[`A${row}`] = String(row * row);
      for (const [index, text] of filledDown.entries()) {
        cells[helpers.toXC(2 + index, row - 1)] = text
          .replaceAll(/#(?!REF)/g, String(row))
          .replaceAll("<", String(row - 1));
      }
    }
    const one = { ...sheet, colNumber: 30, rowNumber: 20, cells, merges: ["A12:B13"] };
    const other = { id: "t", name: "Other", colNumber: 9, rowNumber: 9, cells: { A1: "7", A4: "9", B4: "1" } };
    const data = { version: DATA_VERSION, sheets: [one, other], namedRanges: { TOTAL: "Sheet1!A3" } };
    expectSame(data);
    const models = [createModel(structuredClone(data)), madeAtOnce(data)] as const;
    const changes = [
      {
        type: "ADD_COLUMNS_ROWS",
        sheetId: "s",
        sheetName: "Sheet1",
        dimension: "ROW",
        base: 4,
        quantity: 2,
        position: "before",
      },
      { type: "RENAME_SHEET", sheetId: "t", oldName: "Other", newName: "Further" },
      { type: "REMOVE_COLUMNS_ROWS", sheetId: "s", sheetName: "Sheet1", dimension: "ROW", elements: [2] },
      { type: "DELETE_SHEET", sheetId: "t", sheetName: "Further" },
    ];
    for (const { type, ...change } of changes) {
      for (const model of models) expect(model.dispatch(type as never, change as never).isSuccessful).toBe(true);
      expect(exportedBy(models[0])).toEqual(exportedBy(models[1]));
      expect(shownBy(models[0])).toEqual(shownBy(models[1]));
    }
  });

  it("reads each sheet that a formula names, also where the names of sheets look like cells", () => {
    const floors = ["Fl2", "Fl3", "Fl4"];
    const cells = Object.fromEntries(floors.map((name, index) => [`A${index + 1}`, `=${name}!B${index + 1}`]));
    const ofFloor = (name: string, index: number) => ({
      ...sheet,
      id: name,
      name,
      cells: { B1: `${index}1`, B2: `${index}2`, B3: `${index}3` },
    });
    const data = { version: DATA_VERSION, sheets: [{ ...sheet, cells }, ...floors.map(ofFloor)] };
    const { getters } = createModel(data);
    const shown = floors.map((_, row) => getters.getEvaluatedCell({ sheetId: "s", col: 0, row }).value);
    expect(shown).toEqual([1, 12, 23]);
  });

  it("knows the spelling of formulas that are filled down", () => {
    const cells = Object.fromEntries(
      Array.from({ length: 9 }, (_, index) => [
        [`A${index + 1}`, String(index)],
        [`B${index + 1}`, `=A${index + 1}*2`],
        [`C${index + 1}`, `= a${index + 1} + SUM(A$1:A${index + 1})`],
      ]).flat(),
    );
    const spelled = new Map<number, string>();
    const model = inOneGo(modelInSteps({ version: DATA_VERSION, sheets: [{ ...sheet, cells }] }, {}, spelled));
    expect(spelled.size).toBe(9);
    expect(inOneGo(exportInSteps(model, spelled))).toEqual(inOneGo(exportInSteps(model)));
  });

  it("is made of what an earlier release or the library's short form kept", () => {
    const cells = { A1: "1", A2: "2", B1: "=A1*2", B2: "=A2*2" };
    const kept = createModel({ version: DATA_VERSION, sheets: [{ ...sheet, cells }] })._exportData(true);
    const packed = { ...kept, sheets: [{ ...sheet, cells: [JSON.stringify(cells)] }] };
    for (const data of [kept, { ...kept, version: "18.4" }, packed, { ...packed, version: "18.4" }]) {
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
