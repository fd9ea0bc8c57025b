import { describe, expect, it } from "vitest";
import { callCell, column, expectCellError } from "./call-cell.js";

describe.each([
  ["AIRFLOW", (values: unknown[][], taken: unknown) => callCell("AIRFLOW", values, 2, taken), 400, 800],
  ["AIR.ACTUAL", (values: unknown[][], taken: unknown) => callCell("AIR.ACTUAL", values, 0.075, taken), 400, 400],
  ["AIR.STANDARD", (values: unknown[][], taken: unknown) => callCell("AIR.STANDARD", values, 0.075, taken), 400, 400],
  ["DESIGN.PERCENT", (values: unknown[][], taken: unknown) => callCell("DESIGN.PERCENT", values, 500, taken), 400, 80],
  ["ROOM.CHANGES", (values: unknown[][], taken: unknown) => callCell("ROOM.CHANGES", values, 2400, taken), 400, 10],
] as const)("%s over a column with one COUNT for all of it", (_id, ask, given, result) => {
  it("never makes a blank cell a 0", () => {
    expect(ask(column(given, 0, given), 2)).toEqual(column(result, "", result));
    expect(ask(column(given, null, given), 2)).toEqual(column(result, "", result));
  });

  it("counts every 0 where all were measured", () => {
    expect(ask(column(given, 0, given), 3)).toEqual(column(result, 0, result));
  });

  it("asks for a column of counts where one cannot tell which 0 was measured", () => {
    expectCellError(ask(column(given, 0, 0), 2), "#VALUE!", "Give taken as a column");
    expect(ask(column(given, 0, 0), column(1, 1, 0))).toEqual(column(result, 0, ""));
  });
});

describe("verdicts over a column with one COUNT for all of it", () => {
  it("never judge a blank cell", () => {
    expect(callCell("DESIGN.VERDICT", column(400, 0), 500, 10, 10, 1)).toEqual(column("low", ""));
    expect(callCell("DESIGN.VERDICT", column(400, 0), 500, 10, 10, 2)).toEqual(column("low", "low"));
    expect(callCell("CHANGE.PERCENT", column(400, 400), column(500, 0), 1)).toEqual(column(25, ""));
    expect(callCell("CHANGE.PERCENT", column(400, 400), column(500, 0), 2)).toEqual(column(25, -100));
    expect(callCell("CHANGE.VERDICT", column(400, 400), column(500, 0), 2, null, 1, 5)).toEqual(
      column("higher (5 and 5 sweeps: a change under 9.2 % would not show)", ""),
    );
  });
});
