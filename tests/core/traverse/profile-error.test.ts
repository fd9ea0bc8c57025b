import { describe, expect, it } from "vitest";
import { type DuctSection, type TraverseRule, traversePlan } from "../../../src/core/index.js";

/*
 * What each rule makes of a fully developed profile, V/Vcenter = (y/R)^(1/7), whose true mean over a circle is
 * 49 · 2 / (8 · 15) of the center and over a rectangle (product of two such laws) (7/8)². The errors were worked out
 * with 30 digits by quadrature (mpmath), independently of this code. They are those of a profile, not of a duct:
 * real planes are worse.
 */
const seventhPower = (distance: number, inside: number) =>
  ((2 * Math.min(distance, inside - distance)) / inside) ** (1 / 7);

/** Percent by which the plain mean over the points of a plan departs from the true mean. */
function errorPercent(section: DuctSection, rule: TraverseRule, lines: number, pointsPerLine: number): number {
  const { points } = traversePlan(section, rule, lines, pointsPerLine, 0, 0);
  const velocity = (xIn: number, yIn: number) =>
    section.shape === "round"
      ? seventhPower(
          section.diameterIn / 2 - Math.hypot(xIn - section.diameterIn / 2, yIn - section.diameterIn / 2),
          section.diameterIn,
        )
      : seventhPower(xIn, section.widthIn) * seventhPower(yIn, section.heightIn);
  const trueMean = section.shape === "round" ? 98 / 120 : (7 / 8) ** 2;
  const mean = points.reduce((sum, { xIn, yIn }) => sum + velocity(xIn, yIn), 0) / points.length;
  return (mean / trueMean - 1) * 100;
}

describe("the mean over a 1/7-power profile departs from the truth", () => {
  const round: DuctSection = { shape: "round", diameterIn: 14 };

  it.each([
    ["equal area", 4, 1.395],
    ["equal area", 6, 0.92],
    ["equal area", 8, 0.681],
    ["equal area", 10, 0.538],
    ["equal area", 12, 0.443],
    ["equal area", 20, 0.255],
    ["equal area", 24, 0.209],
    ["log-linear", 4, -0.244],
    ["log-linear", 6, -0.27],
    ["log-linear", 8, -0.11],
    ["log-linear", 10, -0.148],
    ["log-Tchebycheff", 4, -0.555],
    ["log-Tchebycheff", 6, -0.325],
    ["log-Tchebycheff", 8, -0.229],
    ["log-Tchebycheff", 10, -0.171],
  ] as const)("by %s with %i points on a diameter: %f %%", (rule, count, percent) => {
    for (const diameters of [2, 3]) {
      expect(Math.abs(errorPercent(round, rule, diameters, count) - percent)).toBeLessThanOrEqual(0.0005);
    }
  });

  it.each([
    ["equal area", 3, 6.54],
    ["equal area", 4, 3.47],
    ["equal area", 5, 3.39],
    ["equal area", 6, 2.24],
    ["equal area", 7, 2.22],
    ["log-Tchebycheff", 3, 0.85],
    ["log-Tchebycheff", 4, -1.41],
    ["log-Tchebycheff", 5, -0.26],
    ["log-Tchebycheff", 6, -0.39],
    ["log-Tchebycheff", 7, -0.14],
  ] as const)("by %s with %i by as many points in a rectangle: %f %%", (rule, count, percent) => {
    const section: DuctSection = { shape: "rectangular", widthIn: 24, heightIn: 10 };
    expect(Math.abs(errorPercent(section, rule, count, count) - percent)).toBeLessThanOrEqual(0.005);
  });

  it("by a fifth or more for a single reading in the center", () => {
    expect((1 / (98 / 120) - 1) * 100).toBeCloseTo(22.4, 1);
  });
});
