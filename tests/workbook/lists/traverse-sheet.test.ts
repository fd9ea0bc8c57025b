import { describe, expect, it } from "vitest";
import {
  readTraverse,
  TRAVERSE_LABELS,
  type TraverseField,
  traversesOn,
} from "../../../src/workbook/lists/traverse-sheet.js";
import type { SheetSource } from "../../../src/workbook/source/index.js";
import { parseAddress } from "../../../src/xlsx/index.js";

type Content = string | number | { readonly error: string };
type Cells = Readonly<Record<string, Content>>;

/** Where each label stands, its value in the next column but one where a unit is between them. */
const ROWS: readonly TraverseField[] = [
  "system",
  "serves",
  "note",
  "width",
  "height",
  "design",
  "airflow",
  "plusMinus",
];

const at = (field: TraverseField, column = "B") => `${column}${ROWS.indexOf(field) + 1}`;

/** A sheet with the labels of a traverse in rows 1 to 8 and a grid of two lines under row 20. */
function sheetWith(cells: Cells, { formulas = [] as readonly string[], lost = [] as readonly TraverseField[] } = {}) {
  const labels = ROWS.filter((field) => !lost.includes(field)).map((field) => [at(field, "A"), TRAVERSE_LABELS[field]]);
  const grid = { A20: "Point", B20: "Line 1", E20: "Line 2", H20: "Line 1" };
  const all = new Map<string, Content>(Object.entries({ ...Object.fromEntries(labels), ...grid, ...cells }));
  const key = (row: number, column: number) => `${String.fromCharCode(64 + column)}${row}`;
  const rows = [...new Set([...all.keys()].map((address) => parseAddress(address)?.row ?? 0))].sort((a, b) => a - b);
  return {
    name: "Main duct",
    lastColumn: 12,
    rowsFrom: (first: number) => rows.filter((row) => row >= first),
    valueAt: (row: number, column: number) => all.get(key(row, column)) ?? null,
    hasFormula: (row: number, column: number) => formulas.includes(key(row, column)),
    formulaAt: (row: number, column: number) => (formulas.includes(key(row, column)) ? "=1" : undefined),
  } as unknown as SheetSource;
}

function read(...given: Parameters<typeof sheetWith>) {
  const [found] = traversesOn([sheetWith(...given)]);
  if (found === undefined) throw new Error("No traverse was found.");
  return readTraverse(found);
}

const SIZE: Cells = { [at("width")]: 24, [at("height")]: 12 };

describe("a sheet for one duct traverse", () => {
  it("is read with what it says, its readings in both lines and no others", () => {
    const cells = { ...SIZE, [at("serves")]: "Trunk", [at("design")]: 1200, [at("airflow")]: 1150, C22: 600 };
    expect(read(cells)).toMatchObject({
      tag: "Trunk",
      row: 7,
      width: 24,
      height: 12,
      design: 1200,
      airflow: 1150,
      plusMinus: null,
      findings: [],
    });
    const [found] = traversesOn([sheetWith(cells)]);
    expect(new Set(found?.readings.map(({ column }) => column))).toEqual(new Set([3, 6]));
    expect(found?.readings).toHaveLength(24);
  });

  it("is nothing while nothing of it is entered, though formulas stand among its readings", () => {
    expect(read(SIZE)).toBeUndefined();
    expect(read({ ...SIZE, C22: 600 }, { formulas: ["C22"] })).toBeUndefined();
  });

  it.each<[string, Cells]>([
    ["a design", { [at("design")]: 1200 }],
    ["an airflow", { [at("airflow")]: 1150 }],
    ["a size in error", { [at("width")]: { error: "#REF!" } }],
    ["a reading", { C21: 600 }],
    ["a reading in the second line", { F32: 600 }],
  ])("is there where it has %s alone", (_, cells) => {
    expect(read(cells)).toBeDefined();
  });

  it("is named by its sheet where nothing says what the duct serves, and a size of 0 is none", () => {
    const cells = { [at("width")]: 0, [at("height")]: 0, [at("design")]: 0, [at("airflow")]: 0 };
    expect(read(cells)).toMatchObject({ tag: "Main duct", width: null, height: null, design: null, airflow: 0 });
  });
});

describe("readings without an airflow", () => {
  it("are told, with the size that is missing", () => {
    expect(read({ C22: 600 })?.findings).toMatchObject([{ kind: "unfinished-row", leftOut: "outlet", cell: "A7" }]);
  });

  it("are told where the sheet has not calculated", () => {
    const given = read({ ...SIZE, C22: 600 }, { formulas: [at("airflow")] });
    expect(given?.findings).toMatchObject([{ kind: "not-calculated", leftOut: "outlet" }]);
    expect(given?.airflow).toBeNull();
  });

  it("are told where the sheet has lost its label, at the first cell for a reading", () => {
    const given = read({ ...SIZE, C22: 600 }, { lost: ["airflow"] });
    expect(given?.findings).toMatchObject([{ kind: "missing-column", leftOut: "outlet", cell: "C21" }]);
    expect(given?.findings[0]?.problem).toContain("lost its label “Airflow”");
  });

  it("are told once where the airflow is in error, and no less where only the size is", () => {
    const wrong = read({ ...SIZE, C22: 600, [at("airflow")]: { error: "#DIV/0!" } });
    expect(wrong?.findings).toMatchObject([{ kind: "error-value", leftOut: "outlet" }]);
    const both = read({ C22: 600, [at("width")]: { error: "#REF!" } });
    expect(both?.findings.map(({ kind, leftOut }) => `${kind} ${leftOut}`)).toEqual([
      "error-value nothing",
      "unfinished-row outlet",
    ]);
  });

  it("leave the figure to the airflow alone: no unit or text beside it is taken for one", () => {
    const given = read({ ...SIZE, C22: 600, [at("airflow")]: "cfm", [at("airflow", "C")]: 1150 });
    expect(given).toMatchObject({ airflow: 1150, findings: [] });
    expect(read({ ...SIZE, C22: 600, [at("airflow", "G")]: 1150 })?.airflow).toBeNull();
    expect(read({ ...SIZE, C22: 600, [at("airflow", "F")]: 1150 })?.airflow).toBe(1150);
  });
});

describe("a sheet that is no traverse", () => {
  it("lacks more than two of the labels that tell it, or the lines of readings", () => {
    expect(traversesOn([sheetWith({}, { lost: ["system", "serves"] })])).toHaveLength(1);
    expect(traversesOn([sheetWith({}, { lost: ["system", "serves", "width"] })])).toHaveLength(0);
    expect(traversesOn([sheetWith({ B20: "First", E20: "Second", H20: "Third" })])).toHaveLength(0);
  });
});
