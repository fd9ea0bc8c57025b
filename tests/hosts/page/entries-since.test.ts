import { describe, expect, it } from "vitest";
import { createModel } from "../../../src/engine/index.js";
import { entriesSince, withEntries } from "../../../src/hosts/page/entries-since.js";
import { exportedFrom, exporterOf } from "../../../src/hosts/page/file/engine-export.js";

const SHEET = "s";
const DATA = {
  sheets: [
    {
      id: SHEET,
      name: "Outlets",
      colNumber: 26,
      rowNumber: 50,
      cells: { A1: "Outlet", A2: "S1", B2: "410", C2: "=B2*2", D2: "0.5" },
      formats: { "D2:D9": 1 },
    },
  ],
  formats: { 1: "0%" },
};

/** A workbook that is kept as a whole, and what is entered into it afterwards. */
function keptWorkbook() {
  const model = createModel(DATA);
  const since = entriesSince(model);
  const whole = exportedFrom(model);
  since.begin(whole);
  const enter = (col: number, row: number, content: string) =>
    model.dispatch("UPDATE_CELL", { sheetId: SHEET, col, row, content });
  return { model, since, whole, enter };
}

describe("what is kept after an entry", () => {
  it("is the cells that were entered, from which with the whole before the workbook comes back as it is", () => {
    const { model, since, whole, enter } = keptWorkbook();
    enter(1, 1, "425");
    enter(2, 1, "=B2*3");
    enter(0, 2, "S2");
    enter(0, 1, "");
    enter(3, 4, "0.75");
    const entries = since.entries();
    expect(entries).toEqual({ [SHEET]: { B2: "425", C2: "=B2*3", A3: "S2", A2: "", D5: "0.75" } });
    const again = createModel(withEntries(whole, entries ?? {}));
    expect(exportedFrom(again).sheets).toEqual(exportedFrom(model).sheets);
    expect(again.getters.getEvaluatedCell({ sheetId: SHEET, col: 2, row: 1 }).value).toBe(1275);
  });

  it.each<readonly [string, (kept: ReturnType<typeof keptWorkbook>) => void]>([
    [
      "a look",
      ({ model }) =>
        model.dispatch("SET_FORMATTING", {
          sheetId: SHEET,
          target: [{ left: 0, right: 0, top: 0, bottom: 0 }],
          style: { bold: true },
        }),
    ],
    ["a number that brings its format along", ({ enter }) => enter(5, 5, "5%")],
    [
      "a row that was inserted",
      ({ model }) =>
        model.dispatch("ADD_COLUMNS_ROWS", {
          sheetId: SHEET,
          sheetName: "Outlets",
          dimension: "ROW",
          position: "before",
          base: 1,
          quantity: 1,
        }),
    ],
    [
      "a step taken back",
      ({ model, enter }) => {
        enter(1, 1, "1");
        model.dispatch("REQUEST_UNDO");
      },
    ],
  ])("is the whole after %s", (_, change) => {
    const kept = keptWorkbook();
    change(kept);
    expect(kept.since.entries()).toBeNull();
  });

  it("is the whole where the whole was not kept", () => {
    const { since, enter } = keptWorkbook();
    since.forget();
    enter(1, 1, "425");
    expect(since.entries()).toBeNull();
  });
});

describe("a workbook that is taken out of the engine", () => {
  it("is taken out once until something changes", () => {
    const { model, enter } = keptWorkbook();
    const { exported } = exporterOf(model, null);
    const before = exported();
    expect(exported()).toBe(before);
    enter(1, 1, "425");
    expect(exported().sheets[0]?.cells["B2"]).toBe("425");
    expect(before.sheets[0]?.cells["B2"]).toBe("410");
  });
});
