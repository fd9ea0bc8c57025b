import { describe, expect, it } from "vitest";
import { CHECK_KINDS } from "../../../src/workbook/index.js";
import { MISTAKES, WITHOUT_MAPPING } from "../takeover/mistakes.js";
import { PLANTED_IN_MAKES } from "../takeover/mistakes-in-makes.js";
import { foundInFile, foundInPage } from "./given-workbook.js";
import { outletRows, PLANTED } from "./planted-faults.js";

describe("a fault planted in a contractor's own sheet", () => {
  it.each(PLANTED)("$title is found, at its cell and nowhere else, in a file and in the page", async (planted) => {
    const sheets = { "Floor 1": planted.cells, ...planted.others };
    const inFile = await foundInFile(sheets);
    expect(inFile.map(({ kind, sheet, cell }) => [kind, sheet, cell])).toEqual([
      [planted.kind, "Floor 1", planted.cell],
    ]);
    expect(inFile[0]?.problem).toMatch(planted.says[0]);
    expect(inFile[0]?.action).toMatch(planted.says[1]);
    expect(await foundInPage(sheets)).toEqual(inFile);
  });

  it("has an example for every kind but those that only a file or our own sheets can show", () => {
    const planted = new Set(PLANTED.map(({ kind }) => kind));
    const elsewhere = new Set([...MISTAKES, ...WITHOUT_MAPPING, ...PLANTED_IN_MAKES].map(({ kind }) => kind));
    const unplanted = CHECK_KINDS.filter((kind) => !planted.has(kind) && !elsewhere.has(kind));
    expect(unplanted, "plant a fault of each other kind in planted-faults.ts").toEqual([
      "columns-not-known",
      "column-gone",
      "stuck-formula",
      "unfinished-row",
      "rows-below-table",
      "hidden-outlets",
    ]);
  });

  it("is told of outlets below a table, which only a file and Excel know", async () => {
    const cells = outletRows(5);
    const columns = [..."ABCDEFGHIJKL"].map((letter) => String(cells[`${letter}1`]));
    const table = { name: "Outlets", range: "A1:L4", columns };
    const found = await foundInFile({ "Floor 1": cells }, {}, [table]);
    expect(found.map(({ kind, cell }) => `${cell} ${kind}`)).toEqual(["A5:A6 rows-below-table"]);
    expect(found[0]?.problem).toContain("2 outlets below the table, which ends in row 4");
    const whole = { ...table, range: "A1:L6" };
    expect(await foundInFile({ "Floor 1": cells }, {}, [whole])).toEqual([]);
  });

  it("is missing from a sheet in order", async () => {
    expect(await foundInFile({ "Floor 1": outletRows(5) })).toEqual([]);
  });
});
