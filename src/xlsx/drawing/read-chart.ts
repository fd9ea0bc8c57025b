import { childOf, childrenOf, elementWithin, readXmlTree, textIn, type XmlElement } from "../xml/xml-tree.js";
import type { Chart, ChartAxis, ChartData, ChartGroup, ChartKind, ChartLine, ChartSeries } from "./chart.js";
import { fillOf } from "./drawing-colors.js";

/** The kinds of a file that can be drawn; those in three dimensions are drawn flat. */
const KINDS: Readonly<Record<string, ChartKind>> = {
  barChart: "bar",
  bar3DChart: "bar",
  lineChart: "line",
  line3DChart: "line",
  areaChart: "area",
  area3DChart: "area",
  pieChart: "pie",
  pie3DChart: "pie",
  doughnutChart: "doughnut",
  scatterChart: "scatter",
};

/** The kinds that cannot, in words. */
const OTHER_KINDS: Readonly<Record<string, string>> = {
  radarChart: "a radar chart",
  bubbleChart: "a bubble chart",
  stockChart: "a stock chart",
  surfaceChart: "a surface chart",
  surface3DChart: "a surface chart",
  ofPieChart: "a pie of a pie",
};

/** What of a series is not drawn, in words. */
const LEFT_OUT: Readonly<Record<string, string>> = { trendline: "trend lines", errBars: "error bars" };

/** English Metric Units in a pixel of 1/96 in: 914,400 make an inch. @source ECMA-376-1:2016, section 20.1.10.16 */
export const EMU_PER_PX = 9_525;

/** More points than any axis has room for. */
const MAX_STORED = 100_000;

/** Where a theme lists the colours of series. */
const FIRST_ACCENT = 4;
const ACCENTS_END = 10;

/** For a workbook without a theme. */
const OWN_PALETTE: readonly string[] = ["2E7D96", "C65D00", "6A3FA0", "4C7A34", "B0306A", "8A6D00"];

const SIDES: Readonly<Record<string, ChartAxis["side"]>> = { l: "left", r: "right", t: "top", b: "bottom" };
const LEGEND_SIDES: Readonly<Record<string, ChartAxis["side"]>> = { ...SIDES, tr: "right" };

const valOf = (element: XmlElement | undefined): string | undefined => element?.attributes["val"];
const isOn = (element: XmlElement | undefined): boolean =>
  element !== undefined && !/^(?:0|false)$/.test(valOf(element) ?? "1");
const numberOf = (element: XmlElement | undefined): number | undefined => {
  const value = valOf(element);
  return value === undefined || !Number.isFinite(Number(value)) ? undefined : Number(value);
};

/** The text of a title as its paragraphs have it, or what the cell that it names held. */
function titleText(title: XmlElement | undefined): string {
  const text = childOf(title, "tx");
  const rich = childOf(text, "rich");
  if (rich !== undefined) return childrenOf(rich, "p").map(textIn).join(" ").trim();
  return textIn(elementWithin(text, "v")).trim();
}

/** Values, in whichever of their places they are. */
function dataOf(holder: XmlElement | undefined): ChartData | undefined {
  const source = holder?.children.find(({ name }) => /^(?:num|str|multiLvlStr)(?:Ref|Lit)$|^v$/.test(name));
  if (source === undefined) return undefined;
  if (source.name === "v") return { formula: undefined, stored: [source.text] };
  const isNumber = source.name.startsWith("num");
  const cache = source.name.endsWith("Lit")
    ? source
    : source.children.find(({ name }) => /^(?:num|str|multiLvlStr)Cache$/.test(name));
  // Of names in several levels, the first is the one beside the points.
  const points = childrenOf(childOf(cache, "lvl") ?? cache, "pt");
  const count = Math.min(MAX_STORED, numberOf(childOf(cache, "ptCount")) ?? points.length);
  const stored = Array.from({ length: Math.max(0, count) }, (): string | number | null => null);
  for (const point of points) {
    const at = Number(point.attributes["idx"]);
    const text = textIn(childOf(point, "v"));
    const value = isNumber ? Number(text) : text;
    if (Number.isInteger(at) && at >= 0 && at < count && !Number.isNaN(value)) stored[at] = value;
  }
  return { formula: childOf(source, "f")?.text.trim(), stored };
}

function lineOf(properties: XmlElement | undefined, theme: readonly string[]): ChartLine {
  const line = childOf(properties, "ln");
  const width = Number(line?.attributes["w"]);
  const dash = valOf(childOf(line, "prstDash")) ?? "solid";
  return {
    color: fillOf(line, theme),
    widthPx: Number.isFinite(width) ? width / EMU_PER_PX : undefined,
    isDashed: dash !== "solid",
    isAbsent: childOf(line, "noFill") !== undefined,
  };
}

function seriesOf(series: XmlElement, group: XmlElement, kind: ChartKind, theme: readonly string[]): ChartSeries {
  const properties = childOf(series, "spPr");
  const pointFills = childrenOf(series, "dPt").flatMap((point) => {
    const [at, fill] = [numberOf(childOf(point, "idx")), fillOf(childOf(point, "spPr"), theme)];
    return at === undefined || fill === undefined ? [] : [[at, fill] as const];
  });
  const symbol = valOf(childOf(series, "marker", "symbol"));
  const isMarked = kind === "scatter" || isOn(childOf(group, "marker"));
  return {
    name: dataOf(childOf(series, "tx")),
    categories: dataOf(childOf(series, kind === "scatter" ? "xVal" : "cat")),
    values: dataOf(childOf(series, kind === "scatter" ? "yVal" : "val")) ?? { formula: undefined, stored: [] },
    fill: fillOf(properties, theme),
    line: lineOf(properties, theme),
    pointFills: Object.fromEntries(pointFills),
    hasMarkers: symbol === undefined ? isMarked : symbol !== "none",
    isSmooth: isOn(childOf(series, "smooth")),
  };
}

function groupOf(group: XmlElement, kind: ChartKind, theme: readonly string[]): ChartGroup {
  const grouping = valOf(childOf(group, "grouping"));
  const labels = [group, ...childrenOf(group, "ser")].map((one) => childOf(one, "dLbls"));
  return {
    kind,
    isHorizontal: valOf(childOf(group, "barDir")) === "bar",
    stacking: grouping === "stacked" ? "stacked" : grouping === "percentStacked" ? "percent" : "none",
    series: childrenOf(group, "ser").map((series) => seriesOf(series, group, kind, theme)),
    showsValues: labels.some((one) => isOn(childOf(one, "showVal"))),
    axes: childrenOf(group, "axId").map((axis) => valOf(axis) ?? ""),
  };
}

const FAR_SIDES: Readonly<Record<string, ChartAxis["side"]>> = { left: "right", bottom: "top" };

/** An axis of numbers that crosses at the end of the names is on the far side, also where the file does not name that. */
function sideOf(axis: XmlElement): ChartAxis["side"] {
  const side = SIDES[valOf(childOf(axis, "axPos")) ?? ""] ?? "bottom";
  const isFar = axis.name === "valAx" && valOf(childOf(axis, "crosses")) === "max";
  return isFar ? (FAR_SIDES[side] ?? side) : side;
}

function axisOf(axis: XmlElement): ChartAxis {
  const format = childOf(axis, "numFmt")?.attributes;
  const isLinked = /^(?:1|true)$/.test(format?.["sourceLinked"] ?? "");
  const code = format?.["formatCode"] ?? "";
  return {
    id: valOf(childOf(axis, "axId")) ?? "",
    holds: axis.name === "valAx" ? "numbers" : "names",
    side: sideOf(axis),
    title: titleText(childOf(axis, "title")),
    min: numberOf(childOf(axis, "scaling", "min")),
    max: numberOf(childOf(axis, "scaling", "max")),
    isReversed: valOf(childOf(axis, "scaling", "orientation")) === "maxMin",
    isLogarithmic: childOf(axis, "scaling", "logBase") !== undefined,
    isHidden: isOn(childOf(axis, "delete")),
    hasGridLines: childOf(axis, "majorGridlines") !== undefined,
    numberFormat: isLinked || /^general$/i.test(code) ? "" : code,
  };
}

/** A chart, or in words what it is that cannot be drawn. */
export type ReadChart = { readonly chart: Chart } | { readonly other: string };

/**
 * Reads a chart as far as it can be drawn.
 *
 * @param bytes - Its part
 * @param place - The file and the part, for messages
 * @param theme - Colours of the theme, as styles number them
 * @throws {WorkbookFileError} When the part is not well-formed or not safe
 * @source ECMA-376-1:2016, section 21.2
 */
export function readChart(bytes: Uint8Array, place: string, theme: readonly string[]): ReadChart {
  const chart = childOf(readXmlTree(bytes, place), "chart");
  const plot = childOf(chart, "plotArea");
  const drawn = plot?.children.filter(({ name }) => name.endsWith("Chart")) ?? [];
  const unknown = drawn.find(({ name }) => KINDS[name] === undefined);
  if (unknown !== undefined) return { other: OTHER_KINDS[unknown.name] ?? "a chart of an unknown kind" };
  if (drawn.length === 0) return { other: "a chart without anything in it" };
  const leftOut = Object.entries(LEFT_OUT).flatMap(([name, words]) => (elementWithin(plot, name) ? [words] : []));
  const isSolid = drawn.some(({ name }) => name.includes("3D"));
  const groups = drawn.map((group) => groupOf(group, KINDS[group.name] as ChartKind, theme));
  const legend = childOf(chart, "legend");
  const blanks = valOf(childOf(chart, "dispBlanksAs"));
  const series = groups.flatMap((group) => group.series);
  const own = titleText(childOf(chart, "title"));
  // A title without words of its own is the name of the only series.
  const isNamed = own === "" && childOf(chart, "title") !== undefined && series.length === 1;
  return {
    chart: {
      title: isNamed ? String(series[0]?.name?.stored[0] ?? "") : own,
      legend: legend === undefined ? "none" : (LEGEND_SIDES[valOf(childOf(legend, "legendPos")) ?? "r"] ?? "right"),
      groups,
      axes: plot?.children.filter(({ name }) => /^(?:cat|val|date|ser)Ax$/.test(name)).map(axisOf) ?? [],
      palette: theme.length < ACCENTS_END ? OWN_PALETTE : theme.slice(FIRST_ACCENT, ACCENTS_END),
      blanks: blanks === "gap" || blanks === "span" ? blanks : "zero",
      skipsHidden: isOn(childOf(chart, "plotVisOnly")),
      leftOut: [...leftOut, ...(isSolid ? ["its third dimension"] : [])],
    },
  };
}
