import { describe, expect, it } from "vitest";
import type { CellError } from "../../src/cells/index.js";
import { callCell, expectCellError } from "./call-cell.js";

const outlets = (...given: readonly unknown[]) =>
  callCell("SHEET.OUTLETS", ...given) as readonly (readonly (number | string | CellError)[])[];

const READINGS = [
  [400, 420],
  [300, 310],
];
const FACTOR = [[0.75], [0.75]];
const DESIGN = [[200], [100]];

describe("a sheet of outlets", () => {
  it("takes widths and heights as two columns, wherever they are", () => {
    const together = outlets(
      [
        [14, 6],
        [8, 0],
      ],
      FACTOR,
      DESIGN,
      READINGS,
    );
    const apart = outlets([[14], [8]], FACTOR, DESIGN, READINGS, null, null, null, null, [[6], [0]]);
    expect(apart).toEqual(together);
    // 84/144 ft2 · 0.75 · 410 fpm, by hand
    expect(apart[0]?.[3]).toBeCloseTo(179.375, 9);
  });

  it("takes one column of diameters where it is told that all are round", () => {
    const round = outlets([[8], [10]], FACTOR, DESIGN, READINGS, null, null, null, null, "round");
    // π/4 · (8 in)² / 144, by hand
    expect(round[0]?.[0]).toBeCloseTo((Math.PI * 16) / 144, 12);
  });

  it("refuses one column that does not say whether its openings are round", () => {
    // 24 × 24 in without its heights was a round opening of 3.14 ft2.
    const refused = callCell("SHEET.OUTLETS", [[24], [24]], FACTOR, DESIGN, READINGS);
    expectCellError(refused, "#VALUE!", "Add the argument heights");
  });

  it("refuses sizes of three columns, and heights given twice", () => {
    const three = callCell("SHEET.OUTLETS", [[1, 2, 3]], [[1]], [[1]], [[400]]);
    expectCellError(three, "#VALUE!", "sizes has 3 columns");
    const twice = callCell("SHEET.OUTLETS", [[14, 6]], [[1]], [[1]], [[400]], null, null, null, null, [[6]]);
    expectCellError(twice, "#VALUE!", "holds heights already");
    const short = callCell("SHEET.OUTLETS", [[14], [8]], FACTOR, DESIGN, READINGS, null, null, null, null, [
      [6],
      [6],
      [6],
    ]);
    expectCellError(short, "#VALUE!", "heights has 3 rows");
  });

  it("says how to name the columns where heights come before widths", () => {
    const help = expect.stringContaining("give the widths as sizes and the heights as heights");
    expect(outlets([[0, 8]], [[0.75]], [[100]], [[0, 0]])[0]?.[3]).toMatchObject({ message: help });
  });

  it("passes over headings, their units and titles within a list, and nothing that holds a number", () => {
    const rows = outlets(
      [
        ["Width", "Height"],
        ["in", "in"],
        [14, 6],
        ["Upstairs", 0],
        ["14 or 6", 0],
        ["14 or 6", 0],
      ],
      [["Factor"], ["ratio"], [0.75], [0], [0], [0]],
      [["Design"], ["cfm"], [200], [0], [150], [0]],
      [
        ["R1", "R2"],
        ["fpm", "fpm"],
        [400, 420],
        [0, 0],
        [0, 0],
        [400, 0],
      ],
      [[0], [0], [2], [0], [0], [1]],
    );
    for (const index of [0, 1, 3]) expect(rows[index]).toEqual(["", "", "", "", "", "", ""]);
    expect(rows[2]?.[3]).toBeCloseTo(179.375, 9);
    for (const index of [4, 5]) expect(rows[index]?.[3]).toMatchObject({ message: expect.stringContaining("14 or 6") });
  });

  it("ends a whole column with its last outlet", () => {
    const blank = [0];
    const whole = (cells: readonly unknown[]) => {
      const rows = new Array<readonly unknown[]>(1_048_576).fill(blank);
      cells.forEach((cell, row) => {
        rows[row] = [cell];
      });
      return rows;
    };
    const rows = outlets(whole([0, 14]), whole([]), whole([]), whole([0, 400]), null, null, null, null, whole([0, 6]));
    expect(rows).toHaveLength(2);
    expect(rows[1]?.[3]).toBeCloseTo(175, 9);
  });
});
