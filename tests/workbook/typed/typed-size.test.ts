import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { writtenLength } from "../../../src/cells/index.js";
import { sizeMath } from "../../../src/pane/measure/size-math.js";
import { readTypedSize } from "../../../src/workbook/index.js";

const inInches = (text: string) => readTypedSize(text, "ip", 0.5, 5000, sizeMath);
const inMillimeters = (text: string) => readTypedSize(text, "si", 0.5, 5000, sizeMath);

/** The inch is 25.4 mm exactly (NIST SP 811, B.8); the rest is arithmetic by hand. */
const WAYS: readonly (readonly [string, number])[] = [
  ["14", 14],
  ["14.25", 14.25],
  [".75", 0.75],
  ["14 1/4", 14.25],
  ["14  1 / 4", 14.25],
  ["14¼", 14.25],
  ["14 ¼", 14.25],
  ["3/4", 0.75],
  ["⅞", 0.875],
  ["14 1/4 in", 14.25],
  ["14 1/4in.", 14.25],
  ['14 1/4"', 14.25],
  ["14 1/4 ”", 14.25],
  ["14 1/4''", 14.25],
  ["14 1/4 Inches", 14.25],
  ["ø 12", 12],
  ["1 ft", 12],
  ["1'", 12],
  [`1' 2"`, 14],
  [`1' 2 1/2"`, 14.5],
  ["1 ft 2 in", 14],
  ["2 ft - 1 ft 2 in", 10],
  ["350 mm", 350 / 25.4],
  ["35 cm", 350 / 25.4],
  ["0.35 m", 350 / 25.4],
  ["12 - 2*1/2", 11],
  ["12-2*1/2", 11],
  ["12 − 2·½", 11],
  ["12 - 1/2 - 1/2", 11],
  ["10 1/4 in - 2*1/2 in", 9.25],
  ['10 1/4" - 2 * 1/2"', 9.25],
  ["(10 1/4 - 1) in", 9.25],
  ["12 in + 10 mm", 12 + 10 / 25.4],
  ["24/2", 12],
  ["12.5/2", 6.25],
  ["=12+2", 14],
  ["2*(3 + 4)", 14],
];

describe("a size as people write it", () => {
  it.each(WAYS)("%s is read as %d in", (text, inches) => {
    const read = inInches(text);
    expect(read).toHaveProperty("value");
    if (read !== null && "value" in read) expect(read.value).toBeCloseTo(inches, 10);
  });

  it("is exact where the arithmetic is: 12 in are 1 ft, and 10 1/4 less two half inches are 9.25", () => {
    expect(inInches("1 ft")).toMatchObject({ value: 12 });
    expect(inInches("10 1/4 in - 2*1/2 in")).toMatchObject({ value: 9.25 });
    expect(inMillimeters("14 in")).toMatchObject({ value: 355.6 });
  });

  it("says how it was understood, in both units", () => {
    expect(inInches("14 1/4")).toMatchObject({ understood: "= 14.25 in (362 mm)" });
    expect(inMillimeters("350")).toMatchObject({ understood: "= 350 mm (13.78 in)" });
  });

  it("without a unit is in the job's", () => {
    expect(inInches("12 - 1")).toMatchObject({ value: 11 });
    expect(inMillimeters("300 - 2*25")).toMatchObject({ value: 250 });
  });

  it("is none where nothing stands", () => {
    expect(inInches("  ")).toBeNull();
  });

  it("comes back from any whole number of eighths as a person writes it", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 1, max: 7 }), (whole, eighths) => {
        expect(inInches(`${whole} ${eighths}/8`)).toMatchObject({ value: whole + eighths / 8 });
      }),
    );
  });

  it("is the same length in a cell, feet and inches and fractions included", () => {
    const number = fc.oneof(
      fc.integer({ min: 1, max: 40 }).map(String),
      fc.integer({ min: 1, max: 7 }).map((eighths) => `${eighths}/8`),
      fc.tuple(fc.integer({ min: 1, max: 11 }), fc.constantFrom("1/2", "1/4", "3/8")).map((parts) => parts.join(" ")),
    );
    const unit = fc.constantFrom("'", '"', " ft", " in", " mm", " cm", "");
    const piece = fc.tuple(number, unit).map((parts) => parts.join(""));
    const text = fc.array(piece, { minLength: 1, maxLength: 3 }).map((pieces) => pieces.join(" "));
    let taken = 0;
    fc.assert(
      fc.property(text, (written) => {
        const typed = readTypedSize(written, "ip", 0, 5000, sizeMath);
        const inCell = () => writtenLength(written, "ip");
        if (typed === null || "error" in typed) {
          expect(inCell).toThrow();
          return;
        }
        // A number alone is one in a field; in a cell it is text that should be a number.
        if (/^\d+$/.test(written)) return;
        expect(inCell()).toBeCloseTo(typed.value, 8);
        taken += 1;
      }),
      { numRuns: 500 },
    );
    expect(taken).toBeGreaterThan(50);
  });
});

const WRONG: readonly (readonly [string, RegExp])[] = [
  ["fourteen", /“fourteen” is not a known unit of length/],
  ["14,25", /with a point/],
  ["1,250 mm", /with a point/],
  ["14 x 8", /each in its own field/],
  ['14"×8"', /each in its own field/],
  ["14-1/4", /14-1\/4 can mean two things. Write 14 1\/4, or 14 - 1\/4/],
  ['14-1/4"', /can mean two things/],
  ["14 8", /side by side/],
  ["14 1/4 1/2", /side by side/],
  ["2(3)", /side by side/],
  ["14 in - 3", /every length its unit, or none/],
  ["14 - 3 in", /every length its unit, or none/],
  ["14 yd", /“yd” is not a known unit of length/],
  ["14 in * 2 in", /is not a length/],
  ["1/(2 in)", /is not a length/],
  ["in 14", /There is a unit where a number should be/],
  ["14 4/4", /not a mixed number/],
  ["3/0", /divides by zero/],
  ["1/(1-1)", /divides by zero/],
  ["12 -", /cannot be read/],
  ["(12", /cannot be read/],
  ["12)", /cannot be read/],
  ["14 ft 2 ft", /side by side/],
  ["0", /This is 0 in. Enter a size from 0.5 to 5000 in/],
  ["2 - 5", /This is -3 in/],
  ["9999999", /from 0.5 to 5000/],
  ["1e3", /is not a known unit/],
  ["cos(0)", /“cos” is not a known unit/],
  ["a=3", /is not a known unit/],
  ["14; 15", /“; 15” cannot be read/],
  ["14 % 3", /cannot be read/],
  ["2^3", /cannot be read/],
];

describe("a size that cannot be read", () => {
  it.each(WRONG)("%s is refused with a sentence that helps", (text, sentence) => {
    const read = inInches(text);
    expect(read).toHaveProperty("error");
    if (read !== null && "error" in read) {
      expect(read.error).toMatch(sentence);
      expect(read.error).toMatch(/\.$/);
    }
  });

  it("never breaks the reader, whatever is typed", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."0123456789 ./+-*()'\"inftmx,½e=") }), (text) => {
        const read = inInches(text);
        if (read === null || "error" in read) return;
        expect(read.value).toBeGreaterThanOrEqual(0.5);
        expect(read.value).toBeLessThanOrEqual(5000);
      }),
      { numRuns: 500 },
    );
  });
});
