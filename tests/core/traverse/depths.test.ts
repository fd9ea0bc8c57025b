import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type DuctSection,
  insertionDepth,
  insertionDepths,
  minimumWallDistance,
  tapeText,
  tapeTextMm,
} from "../../../src/core/index.js";

const round = (diameterIn: number): DuctSection => ({ shape: "round", diameterIn });
const rectangular = (widthIn: number, heightIn: number): DuctSection => ({ shape: "rectangular", widthIn, heightIn });

describe("the insertion depth", () => {
  it("counts from the outside: position times inside dimension, and the wall", () => {
    expect(insertionDepth(0, 20, 1.25)).toBe(1.25);
    expect(insertionDepth(1, 20, 1.25)).toBe(21.25);
    expect(insertionDepth(0.5, 20, 0)).toBe(10);
  });

  it("is refused outside the duct, without a size, and behind a wall of less than nothing", () => {
    expect(() => insertionDepth(-0.01, 20, 1)).toThrow("positionRatio must be from 0 to 1");
    expect(() => insertionDepth(1.01, 20, 1)).toThrow("positionRatio must be from 0 to 1");
    expect(() => insertionDepth(0.5, 0, 1)).toThrow("insideIn must be above 0");
    expect(() => insertionDepth(0.5, 20, -0.1)).toThrow("wallIn must be 0 or more");
    expect(() => insertionDepth(0.5, Number.NaN, 1)).toThrow("insideIn must be above 0");
  });
});

describe("the depths of a line", () => {
  it("lie between the walls, ascend, and shift with the wall", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 4, max: 120, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        fc.double({ min: 0, max: 6, noNaN: true }),
        (diameterIn, perRadius, wallIn) => {
          const section = round(diameterIn);
          const least = minimumWallDistance(section);
          const depths = insertionDepths(section, "equal area", 2 * perRadius, wallIn, least);
          const bare = insertionDepths(section, "equal area", 2 * perRadius, 0, least);
          for (const [index, depthIn] of depths.entries()) {
            expect(depthIn).toBeGreaterThanOrEqual(wallIn + least - 1e-9);
            expect(depthIn).toBeLessThanOrEqual(wallIn + diameterIn - least + 1e-9);
            expect(depthIn).toBeGreaterThanOrEqual(depths[index - 1] ?? 0);
            expect(depthIn - wallIn).toBeCloseTo(bare[index] ?? Number.NaN, 9);
          }
        },
      ),
    );
  });

  it("cross the width of a rectangular duct, whatever its height", () => {
    expect(insertionDepths(rectangular(20, 8), "equal area", 4, 0, 0)).toEqual([2.5, 7.5, 12.5, 17.5]);
    expect(insertionDepths(rectangular(20, 40), "equal area", 4, 0, 0)).toEqual([2.5, 7.5, 12.5, 17.5]);
  });

  it("keep a point exactly at the least distance, and both of two that meet there", () => {
    expect(insertionDepths(rectangular(4, 4), "equal area", 4, 0, 0.5)).toEqual([0.5, 1.5, 2.5, 3.5]);
    expect(insertionDepths(rectangular(4, 4), "equal area", 8, 0, 1)).toEqual([1, 1, 1.25, 1.75, 2.25, 2.75, 3, 3]);
  });

  it("are refused with a least distance that leaves no room, or below nothing", () => {
    expect(insertionDepths(round(2), "equal area", 2, 0, 1)).toEqual([1, 1]);
    expect(() => insertionDepths(round(2), "equal area", 2, 0, 1.01)).toThrow(
      "minimumWallDistanceIn must be from 0 to 1, but is 1.01",
    );
    expect(() => insertionDepths(round(2), "equal area", 2, 0, -0.1)).toThrow("minimumWallDistanceIn");
    expect(() => insertionDepths(round(0), "equal area", 2, 0, 0)).toThrow("diameterIn must be above 0");
    expect(() => insertionDepths(rectangular(0, 5), "equal area", 2, 0, 0)).toThrow("widthIn must be above 0");
    expect(() => insertionDepths(rectangular(5, Number.NaN), "equal area", 2, 0, 0)).toThrow("heightIn must be");
  });
});

describe("the least distance from the wall", () => {
  it("is 0.5 in up to 24 in and 1 in above, by the hydraulic diameter of a rectangle", () => {
    expect(minimumWallDistance(round(24))).toBe(0.5);
    expect(minimumWallDistance(round(24.01))).toBe(1);
    expect(minimumWallDistance(rectangular(48, 16))).toBe(0.5);
    expect(minimumWallDistance(rectangular(48, 17))).toBe(1);
  });

  it("has no place in a duct below 1 in", () => {
    expect(minimumWallDistance(round(1))).toBe(0.5);
    expect(() => minimumWallDistance(round(0.99))).toThrow(
      "diameterIn must be 1 in (25.4 mm) or more to keep points off",
    );
    expect(() => minimumWallDistance(rectangular(30, 0.9))).toThrow("heightIn must be 1 in (25.4 mm) or more");
    expect(() => minimumWallDistance(rectangular(0.9, 30))).toThrow("widthIn must be 1 in (25.4 mm) or more");
    expect(() => minimumWallDistance(round(-3))).toThrow("diameterIn must be above 0");
  });
});

describe("a length as a tape is read", () => {
  it.each([
    [0, "0"],
    [0.05, "0"],
    [0.0625, "1/8"],
    [0.375, "3/8"],
    [0.513, "1/2"],
    [1, "1"],
    [2.25, "2 1/4"],
    [2.6, "2 5/8"],
    [2.75, "2 3/4"],
    [2.875, "2 7/8"],
    [2.93, "2 7/8"],
    [2.9375, "3"],
    [9.99, "10"],
    [10.0625, "10 1/8"],
  ])("%f in is %s", (lengthIn, text) => {
    expect(tapeText(lengthIn)).toBe(text);
  });

  it("is never more than a sixteenth away from the length", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 500, noNaN: true }), (lengthIn) => {
        const read = tapeText(lengthIn)
          .split(" ")
          .map((part) => part.split("/").map(Number))
          .reduce((sum, [over = 0, under = 1]) => sum + over / under, 0);
        expect(Math.abs(read - lengthIn)).toBeLessThanOrEqual(1 / 16);
      }),
    );
  });

  it("in millimeters is whole", () => {
    expect(tapeTextMm(0)).toBe("0");
    expect(tapeTextMm(2.93)).toBe("74");
    expect(tapeTextMm(10)).toBe("254");
  });

  it("is refused below nothing and beyond numbers", () => {
    for (const text of [tapeText, tapeTextMm]) {
      expect(() => text(-0.1)).toThrow("lengthIn must be 0 or more, but is -0.1");
      expect(() => text(Number.NaN)).toThrow("lengthIn must be 0 or more");
      expect(() => text(1e308)).toThrow("must be");
    }
  });
});
