import type { Model } from "@odoo/o-spreadsheet";
import Chart from "chart.js/auto";
import { DRAWING_TAG } from "../../../engine/index.js";
import { drawingWords } from "./drawing-words.js";
import { configOf, drawingOf } from "./file-drawing.js";

/** Dots of a printed chart for each of the screen. */
const FINENESS = 3;

/** A chart or picture for paper, and the cells that it lies over. */
export interface PrintedDrawing {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly firstCol: number;
  readonly lastCol: number;
  readonly element: HTMLElement;
  /** Settles once it is drawn. */
  readonly ready: Promise<void>;
}

interface Figure {
  readonly id: string;
  readonly tag: string;
  readonly col: number;
  readonly row: number;
  readonly offset: { readonly x: number; readonly y: number };
  readonly width: number;
  readonly height: number;
}

/** The last row or column under so many pixels, from a first one. */
function lastUnder(first: number, pixels: number, count: number, sizeOf: (index: number) => number): number {
  let last = first;
  for (let left = pixels - sizeOf(first); left > 0 && last < count - 1; left -= sizeOf(last)) last += 1;
  return last;
}

function cellsUnder({ getters }: Model, sheetId: string, { col, row, offset, width, height }: Figure) {
  const rowSize = (index: number): number =>
    getters.isRowHidden(sheetId, index) ? 0 : getters.getRowSize(sheetId, index);
  const colSize = (index: number): number =>
    getters.isColHidden(sheetId, index) ? 0 : getters.getColSize(sheetId, index);
  return {
    firstRow: row,
    lastRow: lastUnder(row, offset.y + height, getters.getNumberRows(sheetId), rowSize),
    firstCol: col,
    lastCol: lastUnder(col, offset.x + width, getters.getNumberCols(sheetId), colSize),
  };
}

function words(text: string): HTMLElement {
  const made = document.createElement("p");
  made.textContent = text;
  return made;
}

function printed(model: Model, figure: Figure): Pick<PrintedDrawing, "element" | "ready"> {
  const drawing = drawingOf(model, figure.id);
  const { label, note } = drawingWords(drawing);
  const element = document.createElement("figure");
  element.setAttribute("aria-label", label);
  element.style.width = `${figure.width}px`;
  let ready = Promise.resolve();
  if (drawing?.content.kind === "picture") {
    const { bytes, mediaType } = drawing.content;
    const address = URL.createObjectURL(new Blob([bytes as BlobPart], { type: mediaType }));
    const picture = new Image(figure.width, figure.height);
    picture.src = address;
    // A picture that cannot be shown leaves its place empty on the screen as well.
    ready = picture.decode().catch(() => undefined);
    void ready.then(() => setTimeout(() => URL.revokeObjectURL(address), 60_000));
    element.append(picture);
  } else if (drawing?.content.kind === "chart") {
    const canvas = document.createElement("canvas");
    canvas.width = figure.width;
    canvas.height = figure.height;
    const config = configOf(model, drawing.content.chart);
    const options = { ...config.options, responsive: false, animation: false, devicePixelRatio: FINENESS } as const;
    const drawn = new Chart(canvas, { ...config, options } as typeof config);
    const picture = new Image(figure.width, figure.height);
    picture.src = drawn.toBase64Image();
    drawn.destroy();
    ready = picture.decode().catch(() => undefined);
    element.append(picture);
  }
  if (note !== "") element.append(words(note));
  return { element, ready };
}

/** Draws the charts and pictures of a sheet for paper, from the top. */
export function printedDrawings(model: Model, sheetId: string): readonly PrintedDrawing[] {
  return (model.getters.getFigures(sheetId) as readonly Figure[])
    .filter(({ tag }) => tag === DRAWING_TAG)
    .map((figure) => ({ ...cellsUnder(model, sheetId, figure), ...printed(model, figure) }))
    .sort((one, other) => one.firstRow - other.firstRow);
}
