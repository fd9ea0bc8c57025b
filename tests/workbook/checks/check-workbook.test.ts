import { describe, expect, it } from "vitest";
import { FINDING_KINDS } from "../../../src/workbook/index.js";
import { foundInFile, foundInPage } from "./given-workbook.js";
import { outletRows, PLANTED } from "./planted-faults.js";

describe("a fault planted in a contractor's own sheet", () => {
  it.each(PLANTED)("$title is found, at its cell and nowhere else, in a file and in the page", async (planted) => {
    const sheets = { "Floor 1": planted.cells };
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
    expect(FINDING_KINDS.filter((kind) => !planted.has(kind))).toEqual(["stuck-formula", "unfinished-row"]);
  });

  it("is missing from a sheet in order", async () => {
    expect(await foundInFile({ "Floor 1": outletRows(5) })).toEqual([]);
  });
});
