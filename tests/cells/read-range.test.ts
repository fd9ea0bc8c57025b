import { describe, expect, it } from "vitest";
import { CellError } from "../../src/cells/cell-error.js";
import { allReadings, readMeasured, readNeeded, readOptional, readReadings } from "../../src/cells/read-range.js";

function thrownBy(action: () => unknown): CellError {
  try {
    action();
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
  throw new Error("nothing was thrown");
}

describe("readings", () => {
  it("are nothing yet where every cell is blank, with and without taken", () => {
    expect(
      readReadings(
        "readings",
        [
          [0, 0],
          [null, ""],
        ],
        null,
      ),
    ).toBeNull();
    expect(readReadings("readings", [[0, 0]], 0)).toBeNull();
  });

  it("with a 0 or blank among them are refused until taken says which it is", () => {
    const error = thrownBy(() =>
      readReadings(
        "readings",
        [
          [400, 420],
          [0, 380],
        ],
        null,
      ),
    );
    expect(error.code).toBe("#VALUE!");
    expect(error.message).toContain("readings, row 2, column 1, is 0 or blank");
    expect(error.message).toContain("COUNT");
  });

  it("count a dead spot and leave out a blank once taken is given", () => {
    const block = [
      [400, 0],
      [0, 380],
    ];
    const withDeadSpot = readReadings("readings", block, 3);
    expect(withDeadSpot && allReadings(withDeadSpot)).toEqual([400, 380, 0]);
    const withBlanks = readReadings("readings", block, 2);
    expect(withBlanks && allReadings(withBlanks)).toEqual([400, 380]);
  });

  it("keep an empty text as a blank that no taken can turn into a zero", () => {
    expect(thrownBy(() => readReadings("readings", [[400, ""]], 2)).message).toContain("taken is 2");
  });

  it("refuse a taken that does not fit, or is no count", () => {
    expect(thrownBy(() => readReadings("readings", [[400, 380]], 1)).message).toContain("taken is 1");
    expect(thrownBy(() => readReadings("readings", [[400, 380]], 5)).message).toContain("holds 2 readings");
    expect(thrownBy(() => readReadings("readings", [[400]], 0.5)).message).toContain("whole number");
    expect(thrownBy(() => readReadings("readings", [[400]], "all")).message).toContain("taken holds the text");
  });

  it("name the place of text, of a truth value and of an error", () => {
    expect(thrownBy(() => readReadings("readings", [[400], ["n/a"]], null)).message).toContain("row 2, column 1");
    expect(thrownBy(() => readReadings("readings", [[400, true]], null)).message).toContain("holds TRUE");
    expect(thrownBy(() => readReadings("readings", [[" "]], null)).message).toContain("only spaces");
    const passedOn = thrownBy(() => readReadings("readings", [[new CellError("#DIV/0!", "")]], null));
    expect(passedOn.code).toBe("#DIV/0!");
  });
});

describe("one value", () => {
  it("is missing when blank or 0 where 0 makes no sense", () => {
    for (const blank of [null, undefined, "", 0, [[0]]]) {
      expect(thrownBy(() => readNeeded("width", blank)).code).toBe("#N/A");
      expect(readOptional("factor", blank, 0.75)).toBe(0.75);
    }
    expect(readNeeded("width", [[12]])).toBe(12);
  });

  it("that was measured as 0 needs taken to be told from a blank", () => {
    expect(thrownBy(() => readMeasured("velocity", 0, null)).code).toBe("#N/A");
    expect(readMeasured("velocity", 0, 1)).toBe(0);
    expect(readMeasured("velocity", 0, 0)).toBeNull();
    expect(readMeasured("velocity", "", null)).toBeNull();
    expect(readMeasured("velocity", -35, null)).toBe(-35);
  });

  it("refuses text, a truth value, a block and what is not finite", () => {
    for (const bad of ["12 in", true, [[1, 2]], Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(thrownBy(() => readNeeded("width", bad)).code).toBe("#VALUE!");
    }
  });
});
