/** Values of a chart: those of a block of cells, which stand beside it as they were when the file was saved. */
export interface ChartData {
  /** The block as the file spells it, `Outlets!$A$9:$A$38`; undefined where the chart itself holds the values. */
  readonly formula: string | undefined;
  /** One for each cell, null for an empty one. */
  readonly stored: readonly (string | number | null)[];
}

/** How a line is drawn. */
export interface ChartLine {
  /** Six hexadecimal digits; undefined where the program chooses. */
  readonly color: string | undefined;
  readonly widthPx: number | undefined;
  readonly isDashed: boolean;
  /** Whether there is no line at all. */
  readonly isAbsent: boolean;
}

/** A row of bars, a line, the points of a cloud, or the slices of a pie. */
export interface ChartSeries {
  readonly name: ChartData | undefined;
  /** Names along the axis, or the distances of points from the left. */
  readonly categories: ChartData | undefined;
  readonly values: ChartData;
  /** Of its bars or area, six hexadecimal digits; undefined where the program chooses. */
  readonly fill: string | undefined;
  readonly line: ChartLine;
  /** Of single bars or slices, by their place from 0. */
  readonly pointFills: Readonly<Record<number, string>>;
  readonly hasMarkers: boolean;
  readonly isSmooth: boolean;
}

/** The kinds that can be drawn. */
export type ChartKind = "bar" | "line" | "area" | "pie" | "doughnut" | "scatter";

/** Series of one kind over the same axes; a chart may have several. */
export interface ChartGroup {
  readonly kind: ChartKind;
  /** Of bars: they lie instead of standing. */
  readonly isHorizontal: boolean;
  readonly stacking: "none" | "stacked" | "percent";
  readonly series: readonly ChartSeries[];
  readonly showsValues: boolean;
  /** Names of its axes. */
  readonly axes: readonly string[];
}

/** An axis of a chart. */
export interface ChartAxis {
  readonly id: string;
  readonly holds: "names" | "numbers";
  readonly side: "left" | "right" | "top" | "bottom";
  readonly title: string;
  readonly min: number | undefined;
  readonly max: number | undefined;
  readonly isReversed: boolean;
  readonly isLogarithmic: boolean;
  readonly isHidden: boolean;
  readonly hasGridLines: boolean;
  /** As spreadsheets spell it; "General" and the cells' own are empty. */
  readonly numberFormat: string;
}

/** A chart as far as it can be drawn. */
export interface Chart {
  readonly title: string;
  readonly legend: "left" | "right" | "top" | "bottom" | "none";
  readonly groups: readonly ChartGroup[];
  readonly axes: readonly ChartAxis[];
  /** Colours of series that name none, in their order. */
  readonly palette: readonly string[];
  /** What an empty cell is in a line. */
  readonly blanks: "gap" | "zero" | "span";
  /** Whether cells of hidden rows and columns are left out. */
  readonly skipsHidden: boolean;
  /** What of the file's chart is not drawn, in words. */
  readonly leftOut: readonly string[];
}
