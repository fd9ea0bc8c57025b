import type { Drawing, DrawingCorner } from "../../xlsx/index.js";

/** What the engine calls a figure that this page draws itself, from what the file says of it. */
export const DRAWING_TAG = "drawing";

/** Sizes of the engine for columns or rows, counted from 0, where it has any. */
export type HeaderSizes = Readonly<Record<number, { readonly size: number; readonly isHidden?: boolean }>>;

/** A sheet as far as the places of figures depend on it. */
interface Grid {
  readonly cols: HeaderSizes;
  readonly rows: HeaderSizes;
  readonly columnCount: number;
  readonly rowCount: number;
}

/** The place of something drawn, in the engine's own form. */
interface EngineFigure {
  readonly id: string;
  readonly tag: typeof DRAWING_TAG;
  readonly col: number;
  readonly row: number;
  readonly offset: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

/** The engine's own sizes, where a file gives none. */
const ENGINE_WIDTH_PX = 96;
const ENGINE_HEIGHT_PX = 23;

/** A frame in which one can still read what it is. */
const LEAST_PX = 24;

/** Empty columns and rows that a drawing may add to a sheet; one that lies further away is drawn at the edge. */
const MOST_ADDED = 500;

type Size = (index: number) => number;

const sizeIn =
  (sizes: HeaderSizes, usual: number): Size =>
  (index) => {
    const { size = usual, isHidden = false } = sizes[index] ?? {};
    return isHidden ? 0 : size;
  };

/** How far from the sheet's corner the edge of a column or row is. */
function edgeOf(index: number, size: Size): number {
  let edge = 0;
  for (let at = 0; at < index; at += 1) edge += size(at);
  return edge;
}

/** The column or row at a distance from the sheet's corner, and how far into it that is. */
function headerAt(distance: number, size: Size, count: number): { readonly index: number; readonly offset: number } {
  let left = Math.max(0, distance);
  for (let index = 0; index < count; index += 1) {
    if (left < size(index)) return { index, offset: left };
    left -= size(index);
  }
  return { index: count - 1, offset: 0 };
}

function cornersOf({ anchor }: Drawing): readonly DrawingCorner[] {
  if (!("from" in anchor)) return [];
  return "to" in anchor ? [anchor.from, anchor.to] : [anchor.from];
}

/** How many columns and rows a sheet needs for what lies over it. */
export function reachOf(
  drawings: readonly Drawing[],
  used: { readonly column: number; readonly row: number },
): { readonly column: number; readonly row: number } {
  const corners = drawings.flatMap(cornersOf);
  const most = (numbers: readonly number[], last: number) =>
    Math.min(last + MOST_ADDED, Math.max(0, ...numbers.map((number) => number + 2)));
  return {
    column: most(
      corners.map(({ column }) => column),
      used.column,
    ),
    row: most(
      corners.map(({ row }) => row),
      used.row,
    ),
  };
}

/** Returns the figures of a sheet, each with what is to be drawn in it. */
export function figuresOf(
  drawings: readonly Drawing[],
  sheetId: string,
  { cols, rows, columnCount, rowCount }: Grid,
): readonly { readonly figure: EngineFigure; readonly drawing: Drawing }[] {
  const [width, height] = [sizeIn(cols, ENGINE_WIDTH_PX), sizeIn(rows, ENGINE_HEIGHT_PX)];
  const pointOf = ({ column, columnOffsetPx, row, rowOffsetPx }: DrawingCorner) => ({
    x: edgeOf(Math.min(column, columnCount - 1), width) + Math.min(columnOffsetPx, width(column)),
    y: edgeOf(Math.min(row, rowCount - 1), height) + Math.min(rowOffsetPx, height(row)),
  });
  return drawings.map((drawing, index) => {
    const { anchor } = drawing;
    const start = "from" in anchor ? pointOf(anchor.from) : { x: anchor.leftPx, y: anchor.topPx };
    const end =
      "to" in anchor ? pointOf(anchor.to) : { x: start.x + anchor.size.widthPx, y: start.y + anchor.size.heightPx };
    const [col, row] = [headerAt(start.x, width, columnCount), headerAt(start.y, height, rowCount)];
    const figure: EngineFigure = {
      id: `${sheetId}-drawing-${index + 1}`,
      tag: DRAWING_TAG,
      col: col.index,
      row: row.index,
      offset: { x: Math.round(col.offset), y: Math.round(row.offset) },
      width: Math.max(LEAST_PX, Math.round(end.x - start.x)),
      height: Math.max(LEAST_PX, Math.round(end.y - start.y)),
    };
    return { figure, drawing };
  });
}
