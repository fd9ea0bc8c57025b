import { describe, expect, it } from "vitest";
import { callCell, expectCellError } from "./call-cell.js";

describe("ROOM.CHANGES", () => {
  it("counts the air changes of a column of rooms in both unit systems", () => {
    expect(callCell("ROOM.CHANGES", [[100], [0]], [[6000], [0]])).toEqual([[1], [""]]);
    expect(callCell("ROOM.CHANGES", 125, 450, null, "si")).toBeCloseTo(1, 12);
  });

  it("tells a dead room from one that is not yet measured by taken", () => {
    expectCellError(callCell("ROOM.CHANGES", 0, 6000), "#N/A", "airflow is blank or 0");
    expect(callCell("ROOM.CHANGES", 0, 6000, 1)).toBe(0);
    expect(callCell("ROOM.CHANGES", 0, 6000, 0)).toBe("");
    expectCellError(callCell("ROOM.CHANGES", 100, 0), "#N/A", "volume is missing");
    expectCellError(callCell("ROOM.CHANGES", -100, 6000), "#VALUE!", "airflow must be 0 or more.");
  });
});

describe("ROOM.TRANSFER", () => {
  it("gives what must leave a room, or enter it", () => {
    expect(callCell("ROOM.TRANSFER", 150, 100, 20)).toBe(30);
    expect(callCell("ROOM.TRANSFER", 150, 100)).toBe(50);
    expect(callCell("ROOM.TRANSFER", [[150], [100]], [[100], [150]])).toEqual([[50], [-50]]);
  });

  it("never takes a blank cell for a room without return", () => {
    expectCellError(callCell("ROOM.TRANSFER", 150, 0), "#N/A", "returned is blank or 0");
    expect(callCell("ROOM.TRANSFER", 150, 0, null, 2)).toBe(150);
    expect(callCell("ROOM.TRANSFER", 150, 0, null, 1)).toBe("");
    expect(callCell("ROOM.TRANSFER", 0, 0, 50, 3)).toBe(-50);
    expectCellError(callCell("ROOM.TRANSFER", 0, 0, 50), "#N/A", "supply is blank or 0");
  });

  it("stays empty in a row in which nothing stands", () => {
    expect(callCell("ROOM.TRANSFER", [[0], [150]], [[0], [100]], [[0], [20]], [[0], [3]])).toEqual([[""], [30]]);
  });

  it("refuses a negative airflow and text", () => {
    expectCellError(callCell("ROOM.TRANSFER", -150, 100), "#VALUE!", "supply must be 0 or more.");
    expectCellError(callCell("ROOM.TRANSFER", 150, "none"), "#VALUE!", "returned holds the text");
  });
});

describe("DUCT.LEAKAGE", () => {
  const outlets = [[400], [380], [330]];

  it("compares the fan with the sum of its outlets, in airflow and in percent", () => {
    expect(callCell("DUCT.LEAKAGE", 1200, outlets)).toBe(90);
    expect(callCell("DUCT.LEAKAGEPERCENT", 1200, outlets)).toBe(7.5);
    expect(callCell("DUCT.LEAKAGEPERCENT", 1000, outlets)).toBe(-11);
  });

  it("stays empty until fan and outlets are measured", () => {
    expect(callCell("DUCT.LEAKAGE", 0, outlets)).toBe("");
    expect(callCell("DUCT.LEAKAGE", 1200, [[0], [0]])).toBe("");
  });

  it("does not take an outlet that is not measured for one without air", () => {
    expectCellError(callCell("DUCT.LEAKAGE", 1200, [[400], [0]]), "#VALUE!", "outlets, row 2, column 1, is 0 or blank");
    expect(callCell("DUCT.LEAKAGE", 1200, [[400], [0]], 2)).toBe(800);
    expectCellError(callCell("DUCT.LEAKAGE", -1200, outlets), "#VALUE!", "fan must be 0 or more.");
    expectCellError(callCell("DUCT.LEAKAGE", 1200, [[400], ["stuck"]]), "#VALUE!", "outlets, row 2, column 1,");
  });
});
