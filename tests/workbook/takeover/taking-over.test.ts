import { describe, expect, it } from "vitest";
import {
  fileSource,
  findLists,
  type ListedOutlet,
  MAPPED_UNITS,
  mappingEdits,
  mappingOf,
  proposeColumns,
  readAnswer,
  readList,
  withAnswers,
} from "../../../src/workbook/index.js";
import { readOutlets } from "../../../src/workbook/rollup/index.js";
import { columnLetters, openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { changedEntries } from "../../xlsx/raw-entries.js";
import { type OwnWorkbook, ownWorkbooks } from "./own-workbooks.js";

const makes = await ownWorkbooks();

function proposed({ bytes, answers }: OwnWorkbook) {
  return proposeColumns(fileSource(openWorkbook(bytes, "own.xlsx"))).map((list) =>
    withAnswers(list, answers.map(readAnswer)),
  );
}

/** The file as it is once its columns are kept in it. */
function takenOver(own: OwnWorkbook): Uint8Array {
  const workbook = openWorkbook(own.bytes, "own.xlsx");
  return patchWorkbook(workbook, mappingEdits(workbook, proposed(own).map(mappingOf)));
}

function outletsOf(bytes: Uint8Array): readonly ListedOutlet[] {
  return findLists(fileSource(openWorkbook(bytes, "own.xlsx"))).value.flatMap((list) => readList(list, null).outlets);
}

describe.each(makes.map((make) => [make.title, make] as const))("A workbook with %s", (_title, own) => {
  it("has its columns told, each with its unit and reason, and nothing left to ask", () => {
    const lists = proposed(own);
    const told = Object.fromEntries(
      lists.map(({ sheet, headerRow, columns, stated }) => [
        `${sheet} ${headerRow}`,
        columns
          .flatMap(({ column, content, unit }) => {
            if (content === null) return [];
            const what =
              content.key !== "reading" ? content.key : content.holds === "velocity" ? "reading" : content.holds;
            return `${columnLetters(column)} ${what}${unit === null ? "" : ` ${unit}`}`;
          })
          .join(", ") + (stated.factor === undefined || stated.factor === 1 ? "" : `; factor ${stated.factor}`),
      ]),
    );
    expect(told).toEqual(own.columns);
    for (const { columns, missing } of lists) {
      expect(missing).toEqual([]);
      expect(columns.filter(({ question }) => question !== "")).toEqual([]);
      expect(columns.filter(({ reason, content }) => content !== null && reason === "")).toEqual([]);
    }
  });

  it("keeps that in the part that lists its names, and every other byte as it was", () => {
    expect(changedEntries(own.bytes, takenOver(own))).toEqual(["xl/workbook.xml"]);
    const workbook = openWorkbook(takenOver(own), "own.xlsx");
    const forgotten = patchWorkbook(workbook, mappingEdits(workbook, []));
    expect(openWorkbook(forgotten, "own.xlsx").names).toEqual(openWorkbook(own.bytes, "own.xlsx").names);
  });

  it("is read as a list with the airflows that an independent calculation gives", () => {
    const bytes = takenOver(own);
    const outlets = outletsOf(bytes);
    const tagged = outlets.map(({ list, tag }) => `${list.sheet}!${tag}`);
    expect(tagged.sort()).toEqual(Object.keys(own.airflowsCfm).sort());
    const rolled = readOutlets(openWorkbook(bytes, "own.xlsx"), new Map());
    for (const { sheet, outlet, measuredCfm, designCfm, status } of rolled.value) {
      const id = `${sheet}!${outlet}`;
      expect(status, id).toBe("compared");
      // Rounding of conversions apart, both are the same sum.
      expect(Math.abs((measuredCfm ?? 0) / (own.airflowsCfm[id] ?? 0) - 1), id).toBeLessThan(1e-12);
      expect(Math.abs((designCfm ?? 0) / (own.designsCfm[id] ?? 0) - 1), id).toBeLessThan(1e-12);
    }
    expect(rolled.value).toHaveLength(Object.keys(own.airflowsCfm).length);
  });
});

describe("Every unit of a column", () => {
  it("has spellings that no other has", () => {
    const all = Object.values(MAPPED_UNITS).flatMap(({ spellings }) => spellings as readonly string[]);
    expect(new Set(all).size).toBe(all.length);
  });
});
