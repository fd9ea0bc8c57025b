import { describe, expect, it } from "vitest";
import { calculateXlsx } from "../../../src/engine/index.js";
import { handoffOf } from "../../../src/workbook/index.js";
import { cellAt, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../../src/xlsx/index.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";
import { formulaWorkbook } from "./formula-workbook.js";

const RECT = "_xldudf_VANE_OPENING_RECT";
const AIRFLOW = "_xldudf_VANE_AIRFLOW";
const POINTS = "_xldudf_VANE_TRAVERSE_POINTS";

const NAMES = {
  Area: `${RECT}(Sheet1!$A$1,Sheet1!$B$1)`,
  Flow: `${AIRFLOW}(Sheet1!$C$1,Area)`,
  Beside: `${AIRFLOW}(Sheet1!C1,Area)`,
  Flows: `${AIRFLOW}(Sheet1!$C$1:$C$3,0.5)`,
  Points: `${POINTS}(Sheet1!$A$1)`,
  Unused: `${POINTS}(Sheet1!$B$1)`,
  Plain: "Sheet1!$C$1*2",
};

const CELLS = {
  A1: 14,
  B1: 6,
  C1: 400,
  C2: 420,
  C3: 410,
  E1: { formula: "Area*2" },
  E2: { formula: "IF(Flow>0,ROUND(Flow,1),0)+Plain" },
  // Of a name seen from the first cell of a sheet: two rows further down it is about C3.
  E3: { formula: "SUM(Area,Sheet1!Flow)" },
  A3: { formula: "Beside" },
  E4: { formula: "SUM(Flows)", array: "E4" },
  E5: { formula: 'SUBSTITUTE("Flow","F",ROUND(Area,2))' },
  E6: { formula: "LET(x,Flow,x*2)" },
  E7: { formula: "INDEX(Points,1,1)" },
};

function calculated(): Workbook {
  const workbook = openWorkbook(formulaWorkbook(CELLS, NAMES), "names.xlsx");
  return openWorkbook(patchWorkbook(workbook, calculateXlsx(workbook).edits), "names.xlsx");
}

const value = (workbook: Workbook, address: string) => cellAt(readSheet(workbook, "Sheet1"), address)?.value;

describe("names that stand for calls, in a hand-off copy", () => {
  it("are written out where they are used, and calculate in other programs", async () => {
    const before = calculated();
    const { edits, values } = handoffOf(before);
    const copy = patchWorkbook(before, edits);
    const bare = withoutResults(copy);
    const plain = ["E1", "E2", "E3", "A3", "E4", "E5"];
    expect(value(before, "A3")).toBeCloseTo((410 * 14 * 6) / 144, 9);
    for (const program of [recalculated, recalculatedByGnumeric]) {
      const done = await program(new Map([["copy", bare]]));
      const after = openWorkbook(done.get("copy") ?? new Uint8Array(), "copy.xlsx");
      for (const address of plain) {
        const [ours, theirs] = [value(before, address), value(after, address)];
        expect(theirs, address).toEqual(typeof ours === "number" ? expect.closeTo(ours, 9) : ours);
      }
    }
    expect(values.map(({ address }) => address)).toEqual(expect.arrayContaining(["E6", "E7"]));
    expect(values.find(({ address }) => address === "E6")?.reasons).toEqual([
      "It calls them through the name Flow, which cannot be written out here.",
    ]);
    expect(value(openWorkbook(copy, "copy.xlsx"), "E6")).toBe(value(before, "E6"));
  });

  it("become plain, or are named where they cannot", () => {
    const before = calculated();
    const { edits, names } = handoffOf(before);
    const copy = openWorkbook(patchWorkbook(before, edits), "copy.xlsx");
    const kept = names.filter(({ reasons }) => reasons.length > 0).map(({ name }) => name);
    expect(kept).toEqual(["Flows", "Points", "Unused"]);
    for (const { name, refersTo } of copy.names) {
      expect(/VANE/.test(refersTo), name).toBe(kept.includes(name));
    }
    expect(copy.names.find(({ name }) => name === "Plain")?.refersTo).toBe(NAMES.Plain);
    const note = readSheet(copy, "Hand-off note");
    const said = Array.from({ length: 40 }, (_, row) => cellAt(note, `A${row + 1}`)?.value);
    expect(said).toEqual(expect.arrayContaining(kept));
  });
});
