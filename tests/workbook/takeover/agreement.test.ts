import { describe, expect, it } from "vitest";
import { calculatedSource } from "../../../src/engine/calculation.js";
import {
  agreementOf,
  checkedFile,
  checkWorkbook,
  contentWord,
  mappingEdits,
  mappingOf,
  proposeColumns,
  readAnswer,
  withAnswers,
} from "../../../src/workbook/index.js";
import { readOutlets } from "../../../src/workbook/rollup/index.js";
import { openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { type OwnCells, ownWorkbook } from "./mistakes.js";

/*
 * An invented sheet whose second row of headings says little by itself: "Free" over "area" over a ratio, "Grille" over
 * "Size", and a number of like outlets that the airflow's formula takes. No result is stored.
 */

const READINGS = [
  [410, 395, 420],
  [355, 342, 361],
  [300, 310, 295],
] as const;

function sheet(quantities: readonly number[]): OwnCells {
  const cells: Record<string, OwnCells[string]> = {
    ...{ C4: "Grille", E4: "Free", F4: "Readings (fpm)", I4: "Flow" },
    ...{
      A5: "Mark",
      B5: "Location",
      C5: "Size",
      D5: "Qty",
      E5: "area",
      F5: 1,
      G5: 2,
      H5: 3,
      I5: "CFM des.",
      J5: "CFM act.",
    },
  };
  READINGS.forEach((readings, index) => {
    const row = 6 + index;
    const quantity = quantities[index] ?? 1;
    const mean = (readings[0] + readings[1] + readings[2]) / 3;
    Object.assign(cells, {
      ...{
        [`A${row}`]: `S-${index + 1}`,
        [`B${row}`]: `Room ${index + 1}`,
        [`C${row}`]: "12x6",
        [`D${row}`]: quantity,
      },
      ...{ [`E${row}`]: 0.72, [`F${row}`]: readings[0], [`G${row}`]: readings[1], [`H${row}`]: readings[2] },
      [`I${row}`]: 140,
      [`J${row}`]: {
        formula: `12*6/144*E${row}*AVERAGE(F${row}:H${row})*D${row}`,
        result: 0.5 * 0.72 * mean * quantity,
      },
    });
  });
  return cells;
}

const opened = async (cells: OwnCells) => openWorkbook(await ownWorkbook(cells), "own.xlsx");

describe("Columns that the headings alone do not tell", () => {
  it("are told by both rows of headings and by the formula", async () => {
    const [list] = proposeColumns(calculatedSource(await opened(sheet([1, 1, 1]))));
    const held = Object.fromEntries(
      (list?.columns ?? []).map(({ heading, content }) => [heading, content === null ? "" : contentWord(content)]),
    );
    expect(held).toMatchObject({ "Grille › Size": "size", "Free › area": "factor", "Grille › Qty": "" });
    expect(list?.stated.factor).toBeUndefined();
  });

  it("are asked for where the airflow takes them and nobody knows what they hold", async () => {
    const [list] = proposeColumns(calculatedSource(await opened(sheet([1, 1, 1]))));
    const asked = (list?.columns ?? []).filter(({ question }) => question !== "");
    expect(asked.map(({ heading, question }) => [heading, question])).toEqual([
      ["Grille › Qty", "The airflow's formula takes this column. What does it hold?"],
    ]);
  });
});

describe("How far a sheet's airflows follow from its columns", () => {
  it("is counted over its rows, with the ratio of the others", async () => {
    const source = calculatedSource(await opened(sheet([1, 2, 1])));
    const [list] = proposeColumns(source);
    if (list === undefined) throw new Error("no list was proposed");
    expect(agreementOf(source, list)).toEqual({
      compared: 3,
      agreeing: 2,
      sentence: "2 of 3 airflows follow from these columns. Most others are 2 times as large.",
      isDoubtful: false,
    });
  });

  it("is in doubt where a column is taken for something else", async () => {
    const source = calculatedSource(await opened(sheet([1, 1, 1])));
    const [list] = proposeColumns(source);
    if (list === undefined) throw new Error("no list was proposed");
    const wrong = withAnswers(list, [readAnswer("E=area ft2"), readAnswer("factor=0.5")]);
    const { agreeing, isDoubtful, sentence } = agreementOf(source, wrong);
    expect([agreeing, isDoubtful]).toEqual([0, true]);
    // 0.72 of the opening is free, 0.5 was said.
    expect(sentence).toContain("1.44 times as large");
    expect(sentence).toContain("Look for a column that holds something else.");
  });
});

describe("A check of such a sheet", () => {
  it("names the cell that the formula takes besides", async () => {
    const file = await opened(sheet([1, 2, 1]));
    const edits = mappingEdits(file, proposeColumns(calculatedSource(file)).map(mappingOf));
    const { findings } = checkWorkbook(checkedFile(openWorkbook(patchWorkbook(file, edits), "own.xlsx")));
    expect(findings.map(({ cell, kind }) => `${cell} ${kind}`)).toEqual(["J7 result-not-from-inputs"]);
    expect(findings[0]?.problem).toContain("The formula multiplies by D7, 2, which the list does not know.");
  });
});

describe("An outlet that nobody has read", () => {
  const withoutReadings = async (result: OwnCells[string]) => {
    const cells = { ...sheet([1, 1, 1]), F7: null, G7: null, H7: null, J7: result };
    const file = await opened(cells);
    const edits = mappingEdits(file, proposeColumns(calculatedSource(file)).map(mappingOf));
    const workbook = openWorkbook(patchWorkbook(file, edits), "own.xlsx");
    const { value } = readOutlets(workbook, new Map());
    return value.map(({ outlet, status }) => `${outlet} ${status}`);
  };

  it("is not measured, though an average of no readings shows #DIV/0!", async () => {
    const flow = { formula: "12*6/144*E7*AVERAGE(F7:H7)*D7", result: { error: "#DIV/0!" } };
    expect(await withoutReadings(flow)).toEqual(["S-1 compared", "S-2 not measured", "S-3 compared"]);
  });

  it("has bad data where another error is shown", async () => {
    const flow = { formula: "12*6/144*E7*NOWHERE", result: { error: "#NAME?" } };
    expect(await withoutReadings(flow)).toEqual(["S-1 compared", "S-2 faulty", "S-3 compared"]);
  });
});
