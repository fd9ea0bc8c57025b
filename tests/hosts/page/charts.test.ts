import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Model } from "@odoo/o-spreadsheet";
import { describe, expect, it } from "vitest";
import { createModel, workbookData } from "../../../src/engine/index.js";
import { chartConfig } from "../../../src/hosts/page/drawings/chart-config.js";
import { chartValues } from "../../../src/hosts/page/drawings/chart-values.js";
import { drawingWords } from "../../../src/hosts/page/drawings/drawing-words.js";
import { type Chart, type ChartGroup, openWorkbook, parseAddress } from "../../../src/xlsx/index.js";

const data = (formula: string, stored: readonly (string | number | null)[] = []) => ({ formula, stored });

const LINE = { color: undefined, widthPx: undefined, isDashed: false, isAbsent: false };

const group = (kind: ChartGroup["kind"], more: Partial<ChartGroup> = {}): ChartGroup => ({
  kind,
  isHorizontal: false,
  stacking: "none",
  showsValues: false,
  axes: ["names", "numbers"],
  series: [
    {
      name: data("Sheet1!$B$1"),
      categories: data("Sheet1!$A$2:$A$5"),
      values: data("Sheet1!$B$2:$B$5"),
      fill: undefined,
      line: LINE,
      pointFills: {},
      hasMarkers: false,
      isSmooth: false,
    },
  ],
  ...more,
});

const chartWith = (groups: readonly ChartGroup[], more: Partial<Chart> = {}): Chart => ({
  title: "",
  legend: "none",
  groups,
  axes: [],
  palette: ["112233", "445566"],
  blanks: "gap",
  skipsHidden: true,
  leftOut: [],
  ...more,
});

function sheet(): Model {
  const cells = {
    ...{ A2: "S1", A3: "S2", A4: "S3", A5: "S4", B1: "Measured" },
    ...{ B2: "100", B4: '=""', B5: "=1/0", C2: "300", C3: "50" },
  };
  return createModel({ sheets: [{ id: "s", name: "Sheet1", colNumber: 6, rowNumber: 9, cells }] });
}

const drawn = (chart: Chart, model = sheet()) =>
  chartConfig(chart, {
    valuesOf: (one) => chartValues(model, one, chart.skipsHidden),
    shown: (value, format) => `${value} ${format}`,
  });

const numbersOf = (chart: Chart, model?: Model) => drawn(chart, model).data.datasets.map((one) => one.data);

describe("a chart of the file on the page", () => {
  it("shows what its cells hold, and reads nothing as zero that is none", () => {
    const { data: shown } = drawn(chartWith([group("bar")]));
    expect(shown.labels).toEqual(["S1", "S2", "S3", "S4"]);
    expect(shown.datasets[0]).toMatchObject({ type: "bar", label: "Measured", data: [100, null, null, null] });
  });

  it("follows the cells, and leaves out rows that are hidden where the file says so", () => {
    const model = sheet();
    const { row, column } = parseAddress("B3") ?? { row: 0, column: 0 };
    model.dispatch("UPDATE_CELL", { sheetId: "s", col: column - 1, row: row - 1, content: "55" });
    expect(numbersOf(chartWith([group("line")]), model)).toEqual([[100, 55, null, null]]);
    model.dispatch("HIDE_COLUMNS_ROWS", { sheetId: "s", dimension: "ROW", elements: [1] });
    expect(numbersOf(chartWith([group("line")]), model)).toEqual([[55, null, null]]);
    expect(numbersOf(chartWith([group("line")], { skipsHidden: false }), model)).toEqual([[100, 55, null, null]]);
  });

  it("draws an empty cell as zero only where the file asks for it, and no other cell", () => {
    expect(numbersOf(chartWith([group("line")], { blanks: "zero" }))).toEqual([[100, 0, null, null]]);
  });

  it("keeps the stored values of another workbook's cells", () => {
    const [series] = group("bar").series;
    if (series === undefined) throw new Error("The group has no series.");
    const values = { ...series, values: data("[1]Old!$A$1:$A$2", [7, null]) };
    expect(numbersOf(chartWith([group("bar", { series: [values] })]))).toEqual([[7, null]]);
  });

  it("gives each series of a stack its share of the whole", () => {
    const [first] = group("bar").series;
    if (first === undefined) throw new Error("The group has no series.");
    const second = { ...first, values: data("Sheet1!$C$2:$C$5") };
    const stack = group("bar", { stacking: "percent", series: [first, second] });
    // 100 and 300 are a quarter and three quarters.
    expect(numbersOf(chartWith([stack]))).toEqual([
      [0.25, null, null, null],
      [0.75, 1, null, null],
    ]);
  });

  it("puts points where both of their cells hold numbers", () => {
    const [series] = group("scatter").series;
    if (series === undefined) throw new Error("The group has no series.");
    const cloud = { ...series, categories: data("Sheet1!$B$2:$B$3"), values: data("Sheet1!$C$2:$C$3") };
    expect(numbersOf(chartWith([group("scatter", { series: [cloud] })]))).toEqual([[{ x: 100, y: 300 }]]);
  });

  it("gives a second axis to the series that the file puts there", () => {
    const axis = { holds: "numbers", title: "", min: undefined, max: undefined, numberFormat: "" } as const;
    const looks = { isReversed: false, isLogarithmic: false, isHidden: false, hasGridLines: false };
    const second = group("line", { axes: ["names", "other"] });
    const chart = chartWith([group("bar"), second], {
      axes: [
        { ...axis, ...looks, id: "names", holds: "names", side: "bottom" },
        { ...axis, ...looks, id: "numbers", side: "left" },
        { ...axis, ...looks, id: "other", side: "right", numberFormat: "0%" },
      ],
    });
    const { datasets } = drawn(chart).data;
    expect(datasets.map((one) => (one as { yAxisID?: string }).yAxisID)).toEqual(["y", "y1"]);
  });

  it("is in the data of every file, each figure with what it shows", () => {
    const name = "demonstration.xlsx";
    const { data: workbook, drawings } = workbookData(openWorkbook(readFileSync(join("templates", name)), name));
    const { sheets } = workbook as { sheets: readonly { name: string; figures: readonly { id: string }[] }[] };
    const figures = sheets.flatMap((one) => one.figures.map(({ id }) => [one.name, drawings[id]?.content.kind]));
    expect(figures).toEqual([["Chart", "chart"]]);
    const exported = createModel(workbook)._exportData(false) as unknown as typeof workbook;
    expect((exported as { sheets: readonly { figures: unknown }[] }).sheets.map((one) => one.figures)).toEqual(
      sheets.map((one) => one.figures),
    );
  });
});

describe("the frame of what cannot be drawn", () => {
  const place = {
    anchor: { leftPx: 0, topPx: 0, size: { widthPx: 9, heightPx: 9 } },
    name: "Chart 1",
    description: "",
  };

  it("says what it is, and that the file keeps it", () => {
    const { label, note } = drawingWords({ ...place, content: { kind: "other", what: "a radar chart", text: "" } });
    expect(label).toBe("A radar chart: Chart 1");
    expect(note).toBe("A radar chart. It is not drawn here; the file keeps it.");
  });

  it("says what of a chart is missing, and that a new file lacks it all", () => {
    const chart = chartWith([], { title: "Airflow", leftOut: ["error bars", "trend lines"] });
    expect(drawingWords({ ...place, content: { kind: "chart", chart } })).toEqual({
      label: "Chart: Airflow",
      note: "Drawn here without error bars and trend lines.",
    });
    expect(drawingWords(undefined).note).toContain("made anew without it");
  });
});
