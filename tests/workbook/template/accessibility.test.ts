import { describe, expect, it } from "vitest";
import {
  BALANCE_BLOCKS,
  type BalanceBlock,
  type ConditionalFormatPlan,
  MOST_POINTS,
  PALETTE,
  STYLES,
  type StyleName,
  TEMPLATES,
  type TemplateId,
  type TemplateOptions,
} from "../../../src/workbook/index.js";
import { columnNumber, parseAddress, parseRange } from "../../../src/xlsx/index.js";

/** Relative luminance and contrast. @source WCAG 2.2, "relative luminance" and "contrast ratio" */
function luminance(color: string): number {
  const [red = 0, green = 0, blue = 0] = [0, 2, 4].map((at) => {
    const part = Number.parseInt(color.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(one: string, other: string): number {
  const [light = 0, dark = 0] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return (light + 0.05) / (dark + 0.05);
}

const plans = Object.entries(TEMPLATES).map(([id, plan]) => [id, plan("")] as const);
const formatsOf = (kind: ConditionalFormatPlan["kind"]) =>
  plans
    .flatMap(([, { sheets }]) => sheets.flatMap((sheet) => sheet.conditionalFormats))
    .filter((format) => format.kind === kind);

describe("the sheets are legible", () => {
  it("measures contrast as its definition does: black on white is 21", () => {
    expect(contrast("000000", "FFFFFF")).toBeCloseTo(21, 9);
    expect(contrast("777777", "FFFFFF")).toBeCloseTo(4.48, 2);
  });

  it.each(Object.keys(STYLES) as StyleName[])("text in the style %s stands out from its ground, 4.5 to 1", (name) => {
    const { color, fill } = STYLES[name];
    expect(contrast(color, fill ?? PALETTE.white)).toBeGreaterThanOrEqual(4.5);
  });

  it("numbers stand out from the darkest of a colour scale", () => {
    const scales = formatsOf("scale").flatMap((format) => (format.kind === "scale" ? [format] : []));
    expect(scales.length).toBeGreaterThan(0);
    for (const { lowColor, highColor } of scales) {
      for (const color of [lowColor, highColor]) expect(contrast(PALETTE.ink, color)).toBeGreaterThanOrEqual(4.5);
    }
  });

  it("bars and lines of a chart stand out from the paper, 3 to 1", () => {
    for (const color of [PALETTE.bar, PALETTE.limitLow, PALETTE.limitHigh]) {
      expect(contrast(color, PALETTE.white)).toBeGreaterThanOrEqual(3);
    }
  });

  it("every chart says in words what it shows", () => {
    const charts = plans.flatMap(([, { sheets }]) => sheets.flatMap((sheet) => sheet.charts));
    expect(charts.length).toBeGreaterThan(0);
    for (const { description } of charts) expect(description.length).toBeGreaterThan(40);
  });
});

describe.each(plans)("%s", (_id, { sheets }) => {
  it("has Tab meet the inputs of a table from left to right, each under a header, before the note that ends the row", () => {
    for (const { tables, cells } of sheets) {
      for (const { range, columns } of tables) {
        const { firstRow = 0 } = parseRange(range) ?? {};
        const inRow = cells.filter(({ at, style }) => parseAddress(at)?.row === firstRow + 1 && STYLES[style].unlocked);
        const met = inRow.map(({ at }) => columns[columnNumber(at.replace(/\d+/, "")) - 1]?.name);
        expect(met).toEqual(columns.filter(({ formula }) => formula === null).map(({ name }) => name));
        if (met.includes("Note")) expect(met.at(-1)).toBe("Note");
      }
    }
  });

  it("prints at a size that can be read: a sheet wider than a page goes on beside, its first column repeated", () => {
    for (const { name, role, columnWidths, print, tables } of sheets) {
      if (role !== "work" || tables.length === 0) continue;
      const characters = columnWidths.reduce((sum, width) => sum + width, 0);
      const pages = [0, ...(print.sideBySide?.breakAfter ?? []).map(columnNumber), columnWidths.length];
      if (characters < 250) continue;
      expect(print.sideBySide?.scalePercent, name).toBeGreaterThanOrEqual(80);
      expect(print.sideBySide?.repeatedColumns, name).toBe("A:A");
      const widths = pages
        .slice(1)
        .map((end, index) => columnWidths.slice(pages[index], end).reduce((sum, width) => sum + width, 0));
      // 10.2 in at 80 % take some 175 digits of 10 points, the first column among them.
      for (const width of widths) expect(width + (columnWidths[0] ?? 0), name).toBeLessThanOrEqual(175);
    }
  });
});

describe("a table with more readings, or with every block", () => {
  const blocks = Object.keys(BALANCE_BLOCKS) as BalanceBlock[];
  const wide: readonly (readonly [TemplateId, TemplateOptions])[] = [
    ...[1, 9, 12, 17, MOST_POINTS].map((points) => ["room-balance", { points, blocks }] as const),
    ["room-balance", {}],
    ["face-sweep", { points: 9 }],
    ["before-after", { points: MOST_POINTS }],
  ];

  it.each(wide)("prints %s with %j on pages that are full, and leaves no column alone on one", (id, options) => {
    for (const { name, columnWidths, print, tables } of TEMPLATES[id]("", options).sheets) {
      if (tables.length === 0) continue;
      const ends = [0, ...(print.sideBySide?.breakAfter ?? []).map(columnNumber), columnWidths.length];
      ends.slice(1).forEach((end, index) => {
        const own = columnWidths.slice(ends[index], end);
        expect(own.length, `${name}, page ${index + 1}`).toBeGreaterThan(2);
        // 10.2 in at 80 % in a face with wide digits.
        const width = own.reduce((sum, one) => sum + one, index === 0 ? 0 : (columnWidths[0] ?? 0));
        expect(width, `${name}, page ${index + 1}`).toBeLessThanOrEqual(150);
      });
    }
  });
});
