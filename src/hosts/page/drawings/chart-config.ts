import type { ChartConfiguration, ChartDataset, LegendItem, Plugin, ScaleOptionsByType } from "chart.js";
import type { Chart, ChartAxis, ChartData, ChartGroup, ChartLine, ChartSeries } from "../../../xlsx/index.js";
import type { ChartValue } from "./chart-values.js";

/** What a chart is drawn with: its cells, and how numbers are shown. */
export interface ChartSource {
  readonly valuesOf: (data: ChartData) => readonly ChartValue[];
  readonly shown: (value: number, format: string) => string;
}

const DASH: [number, number] = [7, 4];
const USUAL_LINE_PX = 2;
const MARKER_PX = 3;
/** Beside the chart a legend may be so wide: chart.js gives it less, the more axes there are, and cuts its words off. */
const LEGEND_MOST_PX = 320;
/** As long as a dashed line needs to be seen as one. */
const LEGEND_SAMPLE_PX = 24;
const INK = "#1b2a33";
const GRID = "#d9e0e3";
const FACE = "Roboto, Arial, sans-serif";

type AnyDataset = ChartDataset<"bar" | "line" | "scatter" | "pie" | "doughnut", unknown[]>;

const hex = (color: string): string => `#${color}`;

/** Writes each value at its bar, point or slice, where the file's chart has them. */
export const valueLabels: Plugin = {
  id: "valueLabels",
  afterDatasetsDraw(chart, _, options) {
    const { texts } = options as { readonly texts?: readonly (readonly string[])[] };
    if (texts === undefined) return;
    const { ctx } = chart;
    ctx.save();
    ctx.font = `11px ${FACE}`;
    ctx.fillStyle = INK;
    ctx.textAlign = "center";
    ctx.textBaseline = "bottom";
    texts.forEach((line, dataset) => {
      if (!chart.isDatasetVisible(dataset)) return;
      chart.getDatasetMeta(dataset).data.forEach((element, index) => {
        const text = line[index] ?? "";
        const { x, y } = element.tooltipPosition(true);
        if (text !== "" && x !== null && y !== null) ctx.fillText(text, x, y - 3);
      });
    });
    ctx.restore();
  },
};

/** Among the series, or among the slices of a pie: the order of drawing is another one. */
const placeOf = ({ datasetIndex, index }: LegendItem): number => index ?? datasetIndex ?? 0;

interface Placed {
  readonly group: ChartGroup;
  readonly series: ChartSeries;
  /** Its place among all series of the chart. */
  readonly place: number;
  readonly values: readonly ChartValue[];
}

/** The colour of a series that names none: those of the palette, and lighter ones when they are used up. */
function usualColor(palette: readonly string[], place: number): string {
  const color = palette[place % palette.length] ?? INK.slice(1);
  const lighter = Math.min(3, Math.floor(place / Math.max(1, palette.length)));
  return color.replace(/../g, (channel) => {
    const value = Number.parseInt(channel, 16);
    return Math.round(value + ((255 - value) * lighter) / 4)
      .toString(16)
      .padStart(2, "0");
  });
}

const colorOf = ({ fill, line }: ChartSeries, kind: ChartGroup["kind"], usual: string): string =>
  hex((kind === "line" || kind === "scatter" ? (line.color ?? fill) : (fill ?? line.color)) ?? usual);

function lineLook({ color, widthPx, isDashed, isAbsent }: ChartLine, usual: string) {
  return {
    borderColor: color === undefined ? usual : hex(color),
    borderWidth: isAbsent ? 0 : (widthPx ?? USUAL_LINE_PX),
    borderDash: isDashed ? DASH : [],
    showLine: !isAbsent,
  };
}

/** The shares that series of one stack have in each place, in percent of the whole. */
function sharesOf(stack: readonly Placed[]): ReadonlyMap<Placed, readonly (number | null)[]> {
  const whole = (at: number) => stack.reduce((sum, { values }) => sum + Math.abs(values[at]?.number ?? 0), 0);
  return new Map(
    stack.map((one) => [
      one,
      one.values.map(({ number }, at) => (number === null || whole(at) === 0 ? null : number / whole(at))),
    ]),
  );
}

/** The points of a cloud: distances from the left are numbers, or the places themselves where one of them is none. */
function pointsOf({ series, values }: Placed, source: ChartSource): readonly { x: number; y: number }[] {
  const across = series.categories === undefined ? [] : source.valuesOf(series.categories);
  const isNumbered = across.length > 0 && across.every(({ number, isEmpty }) => number !== null || isEmpty);
  return values.flatMap(({ number }, at) => {
    const x = isNumbered ? across[at]?.number : at + 1;
    return number === null || x === null || x === undefined ? [] : [{ x, y: number }];
  });
}

/** Returns the axes that chart.js draws, by its names for them. */
function scalesOf(chart: Chart, placed: readonly Placed[], source: ChartSource) {
  const isFlat = placed.some(({ group }) => group.isHorizontal);
  const isCloud = placed.every(({ group }) => group.kind === "scatter");
  const isStacked = placed.some(({ group }) => group.stacking !== "none");
  const isShare = placed.some(({ group }) => group.stacking === "percent");
  const used = new Set(placed.flatMap(({ group }) => group.axes));
  const axes = chart.axes.filter(({ id }) => used.has(id));
  const isAcross = ({ side }: ChartAxis) => side === "bottom" || side === "top";
  const [names, numbers] = isCloud
    ? [axes.filter(isAcross), axes.filter((axis) => !isAcross(axis))]
    : [axes.filter(({ holds }) => holds === "names"), axes.filter(({ holds }) => holds === "numbers")];
  const formatOf = (axis: ChartAxis): string => {
    if (axis.numberFormat !== "") return axis.numberFormat;
    if (isShare) return "0%";
    const own = placed.filter(({ group }) => group.axes.includes(axis.id));
    return own.flatMap(({ values }) => values).find(({ number }) => number !== null)?.format ?? "";
  };
  const scale = (axis: ChartAxis | undefined, holdsNumbers: boolean, isSecond: boolean) => {
    const format = axis === undefined || !holdsNumbers ? "" : formatOf(axis);
    return {
      ...(holdsNumbers ? { type: axis?.isLogarithmic === true ? "logarithmic" : "linear" } : { type: "category" }),
      display: axis?.isHidden !== true && !(isSecond && axis === undefined),
      ...(axis === undefined ? {} : { position: axis.side }),
      // Names down the left begin at the bottom in a file, at the top here.
      reverse: (axis?.isReversed === true) !== (isFlat && !holdsNumbers),
      ...(axis?.min === undefined ? {} : { min: axis.min }),
      ...(axis?.max === undefined ? (isShare && holdsNumbers ? { max: 1 } : {}) : { max: axis.max }),
      stacked: isStacked,
      title: { display: (axis?.title ?? "") !== "", text: axis?.title ?? "", color: INK },
      grid: { display: axis?.hasGridLines === true && !isSecond, color: GRID },
      ticks: {
        color: INK,
        ...(holdsNumbers && format !== ""
          ? { callback: (value: string | number) => source.shown(Number(value), format) }
          : {}),
      },
    };
  };
  const [along, against] = isFlat ? (["y", "x"] as const) : (["x", "y"] as const);
  const scales: Record<string, object> = {
    [along]: scale(names[0], isCloud, false),
    [against]: scale(numbers[0], true, false),
  };
  if (numbers[1] !== undefined) scales[`${against}1`] = scale(numbers[1], true, true);
  const scaleOf = (group: ChartGroup): string =>
    numbers[1] !== undefined && group.axes.includes(numbers[1].id) ? `${against}1` : against;
  return { scales: scales as Record<string, ScaleOptionsByType<"linear">>, scaleOf, isFlat, isCloud, against };
}

/**
 * Returns a chart of a file as chart.js draws it, with the values that its cells hold.
 *
 * @param chart - As the file has it
 * @param source - Its cells
 */
export function chartConfig(chart: Chart, source: ChartSource): ChartConfiguration {
  const placed: Placed[] = chart.groups
    .flatMap((group) => group.series.map((series) => ({ group, series })))
    .map(({ group, series }, place) => ({ group, series, place, values: source.valuesOf(series.values) }));
  const usual = (place: number): string => usualColor(chart.palette, place);
  const named = placed.find(({ series }) => series.categories !== undefined)?.series.categories;
  const names = named === undefined ? [] : source.valuesOf(named);
  const count = Math.max(0, ...placed.map(({ values }) => values.length));
  const labels = Array.from(
    { length: count },
    (_, at) => names[at]?.text ?? (named === undefined ? String(at + 1) : ""),
  );
  const nameOf = ({ series, place }: Placed): string =>
    (series.name === undefined
      ? ""
      : source
          .valuesOf(series.name)
          .map(({ text }) => text)
          .join(" ")) || `Series ${place + 1}`;
  const isRound = placed.some(({ group }) => group.kind === "pie" || group.kind === "doughnut");
  const { scales, scaleOf, isFlat, isCloud, against } = scalesOf(chart, placed, source);
  const shares = new Map(
    chart.groups
      .filter(({ stacking }) => stacking === "percent")
      .flatMap((group) => [...sharesOf(placed.filter((one) => one.group === group))]),
  );
  const datasets = placed.map((one): AnyDataset => {
    const { group, series, place, values } = one;
    const color = colorOf(series, group.kind, usual(place));
    const numbers = (shares.get(one) ?? values.map(({ number }) => number)).map((number, at) =>
      number === null && chart.blanks === "zero" && values[at]?.isEmpty === true ? 0 : number,
    );
    const common = { label: nameOf(one), spanGaps: chart.blanks === "span" };
    if (isRound) {
      const fills = values.map((_, at) => hex(series.pointFills[at] ?? usual(at)));
      return { ...common, type: group.kind === "doughnut" ? "doughnut" : "pie", data: numbers, backgroundColor: fills };
    }
    const axis = { [`${against}AxisID`]: scaleOf(group), stack: `${chart.groups.indexOf(group)}` };
    if (group.kind === "bar") {
      const fills = values.map((_, at) => (series.pointFills[at] === undefined ? color : hex(series.pointFills[at])));
      const own = group.stacking === "none" ? { stack: `${place}` } : {};
      return {
        ...common,
        ...axis,
        ...own,
        type: "bar",
        data: numbers,
        backgroundColor: fills,
        pointStyle: "rect",
        order: 1,
      };
    }
    const look = {
      ...lineLook(series.line, color),
      backgroundColor: group.kind === "area" ? color : "transparent",
      pointBackgroundColor: color,
      pointRadius: series.hasMarkers ? MARKER_PX : 0,
      // What the legend shows of it.
      pointStyle: group.kind === "area" ? "rect" : series.hasMarkers ? "circle" : "line",
      tension: series.isSmooth ? 0.35 : 0,
      order: 0,
    };
    if (group.kind === "scatter")
      return { ...common, ...axis, ...look, type: "scatter", data: [...pointsOf(one, source)] };
    const isArea = group.kind === "area";
    return { ...common, ...axis, ...look, type: "line", data: numbers, fill: isArea ? "origin" : false };
  });
  const texts = placed.map(({ group, values }) =>
    group.showsValues ? values.map(({ number, text }) => (number === null ? "" : text)) : [],
  );
  return {
    type: placed[0]?.group.kind === "doughnut" ? "doughnut" : isRound ? "pie" : isCloud ? "scatter" : "bar",
    data: { labels, datasets: datasets as never },
    options: {
      animation: false,
      responsive: true,
      maintainAspectRatio: false,
      ...(isFlat ? { indexAxis: "y" } : {}),
      ...(isRound ? {} : { scales }),
      layout: { padding: 8 },
      plugins: {
        title: { display: chart.title !== "", text: chart.title, color: INK, font: { size: 16, weight: "normal" } },
        legend: {
          display: chart.legend !== "none",
          ...(chart.legend === "none" ? {} : { position: chart.legend }),
          maxWidth: LEGEND_MOST_PX,
          labels: {
            color: INK,
            usePointStyle: true,
            pointStyleWidth: LEGEND_SAMPLE_PX,
            boxHeight: 8,
            sort: (one: LegendItem, other: LegendItem) => placeOf(one) - placeOf(other),
          },
        },
        ...(texts.some((line) => line.length > 0) ? { valueLabels: { texts } } : {}),
      },
    } as ChartConfiguration["options"] & object,
    plugins: [valueLabels],
  };
}
