import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { TEMPLATES } from "../../src/workbook/index.js";
import { type Chart, type Drawing, openWorkbook, readDrawings, readSheet } from "../../src/xlsx/index.js";
import { richWorkbook } from "../hosts/file/rich-workbook.js";
import { columnUnder } from "../support/plan-places.js";

/** The drawings of a sheet, after some parts of the file were replaced. */
function drawingsIn(bytes: Uint8Array, sheet: string, parts: Readonly<Record<string, string>> = {}) {
  const replaced = Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)]));
  const workbook = openWorkbook(zipSync({ ...unzipSync(bytes), ...replaced }), "job.xlsx");
  return readDrawings(workbook, readSheet(workbook, sheet));
}

const SPACES =
  'xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"';

/** The part of a chart around what it plots. */
const chartPart = (plot: string, more = ""): string =>
  `<c:chartSpace ${SPACES}><c:chart><c:plotArea>${plot}</c:plotArea>${more}</c:chart></c:chartSpace>`;

const numbers = (name: string, formula: string, stored: readonly number[]): string =>
  `<c:${name}><c:numRef><c:f>${formula}</c:f><c:numCache><c:ptCount val="${stored.length}"/>${stored
    .map((value, index) => `<c:pt idx="${index}"><c:v>${value}</c:v></c:pt>`)
    .join("")}</c:numCache></c:numRef></c:${name}>`;

const rich = await richWorkbook();
const CHART_PART = Object.keys(unzipSync(rich)).find((name) => name.includes("charts/chart1")) ?? "";

/** The drawing of a chart whose part reads so. */
function chartDrawing(part: string): Drawing | undefined {
  return drawingsIn(rich, "Outlets", { [CHART_PART]: part }).find(({ content }) => content.kind !== "picture");
}

function chartOf(drawing: Drawing | undefined): Chart {
  if (drawing?.content.kind !== "chart") throw new Error(`Not a chart: ${JSON.stringify(drawing?.content)}`);
  return drawing.content.chart;
}

describe("what lies over the cells of a sheet", () => {
  it("is the chart of a template: bars of the percentages between dashed lines for the limits", () => {
    const [drawing, ...others] = drawingsIn(readFileSync("templates/room-balance.xlsx"), "Chart");
    expect(others).toEqual([]);
    expect(drawing?.description).toContain("A bar for each outlet");
    expect(drawing?.anchor).toMatchObject({ from: { column: 0, row: 3 }, to: { column: 13, row: 26 } });
    const chart = chartOf(drawing);
    expect(chart).toMatchObject({ title: "Percent of design by outlet", legend: "bottom", leftOut: [] });
    expect(chart.groups.map(({ kind, series }) => [kind, series.length])).toEqual([
      ["bar", 1],
      ["line", 2],
    ]);
    const column = columnUnder(TEMPLATES["room-balance"](""), "Outlets", "Percent of design");
    expect(chart.groups[0]?.series[0]?.values.formula).toMatch(
      new RegExp(`^Outlets!\\$${column}\\$\\d+:\\$${column}\\$\\d+$`),
    );
    expect(chart.groups[1]?.series.map(({ line }) => line.isDashed)).toEqual([true, true]);
    expect(chart.axes.find(({ holds }) => holds === "numbers")).toMatchObject({ title: "Percent of design", min: 0 });
  });

  it("is a picture with its bytes, where the file has one", () => {
    const picture = drawingsIn(rich, "Outlets").find(({ content }) => content.kind === "picture");
    const media = Object.entries(unzipSync(rich)).find(([name]) => name.includes("/media/"))?.[1];
    expect(picture?.content).toEqual({ kind: "picture", mediaType: "image/png", bytes: media });
    expect(picture?.anchor).toMatchObject({ from: { row: 16, column: 8 } });
  });

  it("is nothing on a sheet without drawings", () => {
    expect(drawingsIn(rich, "Inputs")).toEqual([]);
  });

  it("holds distances, values, and what is not drawn of a cloud of points", () => {
    const chart = chartOf(
      chartDrawing(
        chartPart(
          `<c:scatterChart><c:ser><c:trendline/>${numbers("xVal", "Outlets!$E$2:$E$4", [1, 2, 3])}${numbers("yVal", "Outlets!$F$2:$F$4", [4, 5, 6])}</c:ser><c:axId val="1"/><c:axId val="2"/></c:scatterChart><c:valAx><c:axId val="1"/><c:scaling><c:orientation val="maxMin"/><c:max val="9"/><c:min val="-2"/></c:scaling><c:delete val="1"/><c:axPos val="b"/><c:majorGridlines/></c:valAx><c:valAx><c:axId val="2"/><c:axPos val="l"/></c:valAx>`,
          '<c:dispBlanksAs val="gap"/>',
        ),
      ),
    );
    expect(chart.groups[0]?.series[0]).toMatchObject({
      categories: { formula: "Outlets!$E$2:$E$4", stored: [1, 2, 3] },
      values: { formula: "Outlets!$F$2:$F$4", stored: [4, 5, 6] },
      hasMarkers: true,
    });
    expect(chart.axes[0]).toMatchObject({ isReversed: true, isHidden: true, hasGridLines: true, min: -2, max: 9 });
    expect(chart).toMatchObject({ leftOut: ["trend lines"], blanks: "gap", legend: "none", skipsHidden: false });
  });

  it("names colours of the theme, and those of single slices", () => {
    const chart = chartOf(
      chartDrawing(
        chartPart(
          `<c:pieChart><c:ser><c:dPt><c:idx val="1"/><c:spPr><a:solidFill><a:srgbClr val="102030"><a:lumMod val="50000"/></a:srgbClr></a:solidFill></c:spPr></c:dPt><c:val><c:numLit><c:ptCount val="3"/><c:pt idx="0"><c:v>7</c:v></c:pt><c:pt idx="2"><c:v>9</c:v></c:pt></c:numLit></c:val></c:ser></c:pieChart>`,
        ),
      ),
    );
    // Half of each of red, green and blue.
    expect(chart.groups[0]?.series[0]).toMatchObject({
      pointFills: { 1: "081018" },
      values: { formula: undefined, stored: [7, null, 9] },
    });
  });

  it.each([
    ["radarChart", "a radar chart"],
    ["bubbleChart", "a bubble chart"],
    ["tornadoChart", "a chart of an unknown kind"],
  ])("says of a %s that it cannot be drawn", (element, what) => {
    expect(chartDrawing(chartPart(`<c:${element}/>`))?.content).toEqual({ kind: "other", what, text: "" });
  });

  it("says of a damaged chart why, and leaves the others as they are", () => {
    const drawings = drawingsIn(rich, "Outlets", { [CHART_PART]: "<c:chartSpace>" });
    expect(drawings.map(({ content }) => content.kind).sort()).toEqual(["other", "picture"]);
    const damaged = drawings.find(({ content }) => content.kind === "other")?.content;
    expect(damaged).toMatchObject({ what: "a chart that cannot be read", text: expect.stringContaining(CHART_PART) });
  });

  it("takes what a newer program chose, and the text of a shape", () => {
    const drawing = Object.keys(unzipSync(rich)).find((name) => /drawings\/drawing1\.xml$/.test(name)) ?? "";
    const before = strFromU8(unzipSync(rich)[drawing] ?? new Uint8Array());
    const shape = `<xdr:sp><xdr:nvSpPr><xdr:cNvPr id="90" name="Note"/></xdr:nvSpPr><xdr:txBody><a:p><a:r><a:t>Half </a:t></a:r><a:r><a:t>shut</a:t></a:r></a:p></xdr:txBody></xdr:sp>`;
    const corner = "<xdr:from><xdr:col>1</xdr:col><xdr:row>2</xdr:row></xdr:from>";
    const anchors = [
      `<xdr:oneCellAnchor>${corner}<xdr:ext cx="952500" cy="476250"/><mc:AlternateContent xmlns:mc="m"><mc:Choice>${shape}</mc:Choice><mc:Fallback/></mc:AlternateContent></xdr:oneCellAnchor>`,
      `<xdr:absoluteAnchor><xdr:pos x="9525" y="19050"/><xdr:ext cx="952500" cy="476250"/>${shape.replace('name="Note"', 'name="Note" hidden="1"')}</xdr:absoluteAnchor>`,
    ];
    const drawings = drawingsIn(rich, "Outlets", {
      [drawing]: before.replace("</xdr:wsDr>", `${anchors.join("")}</xdr:wsDr>`),
    });
    expect(drawings).toHaveLength(drawingsIn(rich, "Outlets").length + 1);
    // 914,400 units make an inch of 96 pixels.
    expect(drawings.at(-1)).toMatchObject({
      anchor: { from: { column: 1, row: 2 }, size: { widthPx: 100, heightPx: 50 } },
      content: { kind: "other", what: "a shape", text: "Half shut" },
    });
  });
});
