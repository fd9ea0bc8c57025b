import { describe, expect, it } from "vitest";
import { createModel } from "../../../src/engine/index.js";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { TEMPLATES } from "../../../src/workbook/index.js";
import { drawOf } from "../../../src/workbook/template/room-balance/retest-sheet.js";
import { columnLetters } from "../../../src/xlsx/address.js";
import { cellUnder } from "../../support/plan-places.js";

/*
 * Twenty outlets of one free square foot (12 x 12 in, factor 1), each with one reading of 100 fpm and its number: the
 * reading is the airflow in cfm.
 */

const PLAN = TEMPLATES["room-balance"]("");
const OUTLETS = 20;
const FIRST = 16;

function entered(table: string, row: number, cells: Readonly<Record<string, string | number>>) {
  return Object.fromEntries(
    Object.entries(cells).map(([header, value]) => [cellUnder(PLAN, table, header, row), value]),
  );
}

function retest(own: Readonly<Record<string, string | number>>, more: Readonly<Record<string, string | number>> = {}) {
  const outlets = Array.from({ length: OUTLETS }, (_, index) =>
    entered("Outlets", 9 + index, {
      Outlet: `S${index + 1}`,
      "Width or diameter": 12,
      Height: 12,
      Factor: 1,
      R1: 101 + index,
    }),
  );
  const results = calculatePlan(PLAN, { Outlets: Object.assign({}, ...outlets, more), "Re-test": own });
  const shown = (header: string, index: number) =>
    results.get("Re-test")?.get(cellUnder(PLAN, "Retest", header, FIRST + index))?.value;
  return {
    drawn: Array.from({ length: 20 }, (_, index) => shown("Drawn", index)).filter((tag) => tag !== ""),
    shown,
    result: results.get("Re-test")?.get("B10")?.value,
  };
}

describe("the record of a re-test", () => {
  it("draws the share of the measured outlets by the seed, each once, and the same ones again", () => {
    expect(retest({}).drawn).toEqual([]);
    expect(retest({}).result).toBe("Type the seed that the witness names.");
    const first = retest({ B6: 4711, B5: 20 });
    expect(first.drawn).toHaveLength(4);
    expect(new Set(first.drawn).size).toBe(4);
    expect(retest({ B6: 4711, B5: 20 }).drawn).toEqual(first.drawn);
    expect(first.result).toBe("0 of 4 read again.");
  });

  it("draws every outlet about equally often", () => {
    const seeds = 60;
    // Airflows in column A, seeds in row 30, and below each seed the draws of the outlets.
    const cells = Array.from({ length: seeds }, (_, index) => {
      const letters = columnLetters(index + 2);
      const draws = Array.from({ length: OUTLETS }, (_row, row) => {
        return [`${letters}${row + 1}`, drawOf(`$A${row + 1}`, `${letters}$30`)] as const;
      });
      return [[`${letters}30`, `${index + 1}`] as const, ...draws];
    });
    const airflows = Array.from({ length: OUTLETS }, (_, row) => [`A${row + 1}`, "100"] as const);
    const sheet = { id: "S", name: "S", colNumber: seeds + 2, rowNumber: 30 };
    const model = createModel({ sheets: [{ ...sheet, cells: Object.fromEntries([...airflows, ...cells.flat()]) }] });
    const counts = new Array<number>(OUTLETS).fill(0);
    for (let col = 1; col <= seeds; col += 1) {
      const draws = counts.map((_, row) => Number(model.getters.getEvaluatedCell({ sheetId: "S", col, row }).value));
      const fourth = [...draws].sort((one, other) => one - other)[3] ?? Number.NaN;
      draws.forEach((draw, row) => {
        if (draw <= fourth) counts[row] = (counts[row] ?? 0) + 1;
      });
    }
    // Four of twenty sixty times are 12 of each on average; 2 and 26 lie more than three standard deviations away.
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(4 * seeds);
    expect(Math.min(...counts)).toBeGreaterThan(2);
    expect(Math.max(...counts)).toBeLessThan(26);
  });

  it("compares what the witness read, and asks for the whole system where one differs", () => {
    const seeded = { B6: 4711, B5: 10 };
    const { drawn, shown } = retest(seeded);
    expect(drawn).toHaveLength(2);
    const [one, other] = [shown("Reported", 0), shown("Reported", 1)].map(Number) as [number, number];
    const witness = (index: number, reading: number) => ({
      [cellUnder(PLAN, "Retest", "W1", FIRST + index)]: reading,
    });
    const near = retest({ ...seeded, ...witness(0, 1.1 * one), ...witness(1, 0.95 * other) });
    expect([near.shown("Agreement", 0), near.shown("Agreement", 1)]).toEqual(["agrees", "agrees"]);
    expect(near.shown("Off by", 0)).toBeCloseTo(10, 9);
    expect(near.result).toBe("All 2 agree within 10 %.");
    const off = retest({ ...seeded, ...witness(0, 1.11 * one) });
    expect(off.shown("Agreement", 0)).toBe("differs");
    expect(off.result).toBe(
      "1 of 2 differ by more than 10 %: recalculate, calibrate the meter, and test the whole system again.",
    );
  });
});
