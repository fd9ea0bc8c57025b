import { type GroupOfJobs, PERCENT_BINS } from "../../workbook/rollup/index.js";
import { fixedFigure } from "../controls/shown-figure.js";
import type { Column } from "./column-chart.js";

/** Columns of a chart, and what they show in a sentence. */
export interface ChartColumns {
  readonly columns: readonly Column[];
  readonly most: number;
  readonly description: string;
}

/** A chart this wide has room for so many labels. */
const MOST_LABELS = 6;

/** Every so many bins a label: 50, 75, 100 … */
const LABELLED_PERCENT = 25;

/** How many outlets fall into each class of percent of design. */
export function distributionColumns(percentCounts: readonly number[]): ChartColumns {
  const columns = PERCENT_BINS.map(({ label, fromPercent }, index) => ({
    key: label,
    value: percentCounts[index] ?? 0,
    label: Number.isFinite(fromPercent) && fromPercent % LABELLED_PERCENT === 0 ? `${fromPercent} %` : "",
  }));
  const most = Math.max(1, ...columns.map(({ value }) => value));
  const filled = columns.filter(({ value }) => value > 0).map(({ key, value }) => `${key} %: ${value}`);
  const description = `Number of outlets by percent of design. ${filled.length === 0 ? "None." : `${filled.join("; ")}.`}`;
  return { columns, most, description };
}

/** The share of outlets inside their limits, month by month; a month without a verdict is left out, and is no 0. */
export function monthColumns(months: readonly GroupOfJobs[]): ChartColumns {
  const judged = months.flatMap(({ name, withinPercent }) =>
    name === "" || withinPercent === null ? [] : [{ name, withinPercent }],
  );
  const everyMonth = Math.ceil(judged.length / MOST_LABELS);
  const columns = judged.map(({ name, withinPercent }, index) => ({
    key: name,
    value: withinPercent,
    label: index % everyMonth === 0 ? name : "",
  }));
  const words = judged.map(({ name, withinPercent }) => `${name}: ${fixedFigure(withinPercent, 0)} %`);
  const description = `Share of outlets inside their limits by month. ${words.length === 0 ? "None." : `${words.join("; ")}.`}`;
  return { columns, most: 100, description };
}
