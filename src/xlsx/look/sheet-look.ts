import type { CellRange } from "../address.js";

/** One rule of how cells look when their content calls for it. Formulas are relative to the first cell of the ranges. */
export interface ConditionalRule {
  readonly ranges: readonly CellRange[];
  /** cellIs, expression, containsText, colorScale, dataBar, iconSet, top10, aboveAverage, … */
  readonly type: string;
  readonly operator: string;
  readonly formulas: readonly string[];
  /** The smallest number wins. */
  readonly priority: number;
  readonly stopsOthers: boolean;
  /** Index into the looks that differ; undefined for scales, bars and icons. */
  readonly look: number | undefined;
  readonly text: string;
  /** Of `top10`: how many or what share, and from which end. */
  readonly rank: number;
  readonly isPercent: boolean;
  readonly isBottom: boolean;
  /** Of a scale or a bar: where it begins and ends, and in which colours. */
  readonly thresholds: readonly { readonly type: string; readonly value: string }[];
  readonly colors: readonly string[];
}

/** How a sheet is laid out and how its cells change their looks. */
export interface SheetLook {
  /** In characters, as files count them. */
  readonly defaultWidth: number | undefined;
  readonly defaultHeightPt: number | undefined;
  readonly columns: readonly {
    readonly first: number;
    readonly last: number;
    readonly width: number | undefined;
    readonly isHidden: boolean;
  }[];
  readonly rows: ReadonlyMap<number, { readonly heightPt: number | undefined; readonly isHidden: boolean }>;
  readonly frozen: { readonly rows: number; readonly columns: number };
  readonly showsGridLines: boolean;
  readonly tabColor: string | undefined;
  /** The smallest priority first. */
  readonly rules: readonly ConditionalRule[];
}
