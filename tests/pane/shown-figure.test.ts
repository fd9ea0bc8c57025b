import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { metersPerSecondFromFpm } from "../../src/core/index.js";
import type { LogSweep } from "../../src/logger/index.js";
import { airflowText, percentText, velocityText } from "../../src/pane/balance/quantity-text.js";
import { setDecimalSign } from "../../src/pane/controls/decimal-sign.js";
import { readTypedNumber } from "../../src/pane/controls/read-typed-number.js";
import {
  figure,
  fixedFigure,
  preciseFigure,
  shortFigure,
  shownNumber,
  wordsWithFigures,
} from "../../src/pane/controls/shown-figure.js";
import { takenLogSweep } from "../../src/pane/logger/taken-log-sweep.js";
import { openingChanges, openingWords } from "../../src/pane/measure/known-opening-words.js";
import { siteWords } from "../../src/pane/measure/site-words.js";
import { densityText } from "../../src/pane/shell/density-text.js";
import type { KnownOpening } from "../../src/workbook/index.js";

const PANE = resolve("src/pane");

/** What calculates places of a drawing or the text of a file, and shows no figure. */
const NOT_SHOWN = [
  "controls/shown-figure.ts",
  "logger/plot-path.ts",
  "logger/sweep-picker.tsx",
  "measure/drawing/point-cells.ts",
];

describe("a figure of the pane", () => {
  afterEach(() => setDecimalSign("."));

  it.each([
    [".", ["2.125", "3.50", "3.5", "0.333", "8.50", "31.4", "128"]],
    [",", ["2,125", "3,50", "3,5", "0,333", "8,50", "31,4", "128"]],
  ] as const)("has the sign %j before its decimals", (sign, shown) => {
    setDecimalSign(sign);
    expect([
      figure(2.125),
      fixedFigure(3.5, 2),
      shortFigure(3.5, 2),
      preciseFigure(1 / 3, 3),
      shownNumber(8.5),
      shownNumber(31.42),
      shownNumber(128.4),
    ]).toEqual(shown);
  });

  it("is put together in one place alone", () => {
    const files = readdirSync(PANE, { recursive: true, encoding: "utf8" }).filter((file) => /\.tsx?$/.test(file));
    const own = files.filter((file) => /\.to(?:Fixed|Precision)\(/.test(readFileSync(join(PANE, file), "utf8")));
    expect(own.map((file) => file.replaceAll("\\", "/")).sort()).toEqual([...NOT_SHOWN].sort());
  });
});

const OPENING: KnownOpening = {
  sheet: "Outlets",
  row: 12,
  name: "2.1",
  units: "ip",
  shape: "rectangular",
  width: 10.125,
  height: 6.5,
  factor: 0.725,
  effectiveArea: null,
  factorIs: "given",
  findings: [],
};

describe("in a workbook with a decimal comma", () => {
  beforeEach(() => setDecimalSign(","));
  afterEach(() => setDecimalSign("."));

  it("the pane says quantities with it, and leaves names alone", () => {
    expect(airflowText(8.46, "si")).toBe("8,5 L/s");
    expect(velocityText(2.5, "si")).toBe("2,50 m/s");
    expect(percentText(0.975)).toBe("98 %");
    expect(densityText(0.075, "ip")).toBe("Density of the air: 0,0750 lb/ft³");
    expect(openingWords(OPENING, "ip")).toBe("Row 12, 2.1: 10,125 × 6,5 in, factor 0,725.");
    expect(wordsWithFigures("± 11.2 % (95 %). Most of it is the factor.")).toBe(
      "± 11,2 % (95 %). Most of it is the factor.",
    );
    // 10 ft of a duct of 18 in are 6.66 diameters.
    const section = { shape: "round", diameterIn: 18 } as const;
    expect(siteWords({ upstream: "10", downstream: "3" }, section, "ip")?.words).toContain("6,6");
  });

  it("what the pane types into its fields is read there again", () => {
    const { factor = "" } = openingChanges(OPENING, "ip", "face");
    expect(readTypedNumber(factor, 0.01, 1)).toEqual({ value: 0.725 });
    expect(openingChanges({ ...OPENING, factor: null, effectiveArea: 0.375 }, "ip", "face").effectiveArea).toBe(
      "0,375",
    );
    const sweep = takenLogSweep({ meanFpm: 418.3, durationSeconds: 29.5 } as LogSweep, "si");
    // Three digits behind a point would be taken for thousands.
    expect(readTypedNumber(sweep.velocity, null, null)).toEqual({
      value: Number(metersPerSecondFromFpm(418.3).toFixed(3)),
    });
    expect(sweep).toEqual({ velocity: "2,125", seconds: "29,5" });
  });
});
