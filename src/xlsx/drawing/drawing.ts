import type { Chart } from "./chart.js";

/** A corner of a drawing: the cell that holds it, counted from 0 as files do, and how far into the cell it lies. */
export interface DrawingCorner {
  readonly column: number;
  readonly columnOffsetPx: number;
  readonly row: number;
  readonly rowOffsetPx: number;
}

/** A size on the screen. */
export interface DrawingSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Where a drawing is: between two corners, from a corner in its own size, or away from the sheet's own corner. */
export type DrawingAnchor =
  | { readonly from: DrawingCorner; readonly to: DrawingCorner }
  | { readonly from: DrawingCorner; readonly size: DrawingSize }
  | { readonly leftPx: number; readonly topPx: number; readonly size: DrawingSize };

/** What a drawing shows. */
export type DrawingContent =
  | { readonly kind: "chart"; readonly chart: Chart }
  | { readonly kind: "picture"; readonly mediaType: string; readonly bytes: Uint8Array }
  /** What cannot be drawn: what it is, in words, and the text in it. */
  | { readonly kind: "other"; readonly what: string; readonly text: string };

/** Something that lies over the cells of a sheet. */
export interface Drawing {
  readonly anchor: DrawingAnchor;
  readonly name: string;
  /** What its maker says of it to whoever cannot see it. */
  readonly description: string;
  readonly content: DrawingContent;
}
