import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dateSerial, isoDate } from "../../src/xlsx/index.js";

describe("the day of a number", () => {
  it.each([
    // ECMA-376-1:2016, 18.17.4.1: 1 is 1 January 1900, 2 958 465 is 31 December 9999.
    [1, false, "1900-01-01"],
    [59, false, "1900-02-28"],
    [61, false, "1900-03-01"],
    [45413, false, "2024-05-01"],
    [45413.99, false, "2024-05-01"],
    [2_958_465, false, "9999-12-31"],
    [0, true, "1904-01-01"],
    [43951, true, "2024-05-01"],
  ] as const)("%d is a day", (serial, usesDate1904, day) => {
    expect(isoDate(serial, usesDate1904)).toBe(day);
  });

  it.each([0, 60, 60.5, -1, 2_958_466, Number.NaN, 1e300])("%d is none", (serial) => {
    expect(isoDate(serial, false)).toBeUndefined();
  });

  it("comes back from the day", () => {
    fc.assert(
      fc.property(fc.integer({ min: 61, max: 2_958_465 }), fc.boolean(), (serial, usesDate1904) => {
        const day = isoDate(usesDate1904 ? serial - 1462 : serial, usesDate1904);
        expect(dateSerial(day ?? "", usesDate1904)).toBe(usesDate1904 ? serial - 1462 : serial);
      }),
    );
  });
});
