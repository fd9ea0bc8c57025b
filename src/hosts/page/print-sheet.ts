import type { Model } from "@odoo/o-spreadsheet";
import { type PrintedDrawing, printedDrawings } from "./drawings/printed-drawings.js";
import type { PageContext } from "./page-context.js";

const SIDES = ["top", "right", "bottom", "left"] as const;

interface Cut {
  readonly col: number;
  readonly row: number;
  readonly columns: number;
  readonly rows: number;
}

/**
 * Rows and columns that are in use and shown, from the first. A sheet that shows nothing beneath its headings is printed
 * as a form, with the empty rows that wait for entries.
 */
function shownHeaders({ getters }: Model, sheetId: string) {
  let lastRow = -1;
  let lastCol = -1;
  for (const { col, row } of getters.getEvaluatedCellsPositions(sheetId)) {
    if (getters.getEvaluatedCell({ sheetId, col, row }).formattedValue === "") continue;
    lastRow = Math.max(lastRow, row);
    lastCol = Math.max(lastCol, col);
  }
  if (lastRow < getters.getPaneDivisions(sheetId).ySplit) {
    for (const { row } of getters.getEvaluatedCellsPositions(sheetId)) lastRow = Math.max(lastRow, row);
  }
  const upTo = (last: number, isHidden: (index: number) => boolean) =>
    Array.from({ length: last + 1 }, (_, index) => index).filter((index) => !isHidden(index));
  return {
    rows: upTo(lastRow, (row) => getters.isRowHidden(sheetId, row)),
    columns: upTo(lastCol, (col) => getters.isColHidden(sheetId, col)),
  };
}

/** The block that a cell stands for: its merge, as far as that is shown; null under another cell. */
function cutOf({ getters }: Model, sheetId: string, col: number, row: number): Cut | null {
  const merge = getters.getMerge({ sheetId, col, row });
  if (merge === undefined) return { col, row, columns: 1, rows: 1 };
  if (merge.left !== col || merge.top !== row) return null;
  const count = (first: number, last: number, isHidden: (index: number) => boolean) =>
    Array.from({ length: last - first + 1 }, (_, index) => first + index).filter((index) => !isHidden(index)).length;
  return {
    col,
    row,
    columns: count(merge.left, merge.right, (index) => getters.isColHidden(sheetId, index)),
    rows: count(merge.top, merge.bottom, (index) => getters.isRowHidden(sheetId, index)),
  };
}

/** How much wider than its cell a text may be: as far as the cells to its right show nothing. */
function room({ getters }: Model, sheetId: string, { col, row, columns }: Cut, shown: readonly number[]): number {
  const own = shown.indexOf(col);
  const width = (index: number): number => getters.getColSize(sheetId, shown[index] ?? col);
  const cell = Array.from({ length: columns }, (_, index) => width(own + index)).reduce((sum, size) => sum + size, 0);
  let free = cell;
  for (let index = own + columns; index < shown.length; index += 1) {
    if (getters.getEvaluatedCell({ sheetId, col: shown[index] ?? col, row }).formattedValue !== "") break;
    free += width(index);
  }
  return free / cell;
}

/** Lets a text go on over the empty cells to its right, as the grid does. */
function letOver(cell: HTMLTableCellElement, model: Model, sheetId: string, cut: Cut, shown: readonly number[]): void {
  const { wrapping, align } = model.getters.getCellComputedStyle({ sheetId, col: cut.col, row: cut.row });
  const { type } = model.getters.getEvaluatedCell({ sheetId, col: cut.col, row: cut.row });
  if (type !== "text" || (wrapping ?? "overflow") !== "overflow" || (align ?? "left") !== "left") return;
  const words = document.createElement("div");
  words.textContent = cell.textContent;
  words.style.width = `${100 * room(model, sheetId, cut, shown)}%`;
  cell.replaceChildren(words);
}

function paint(cell: HTMLTableCellElement, { getters }: Model, sheetId: string, { col, row }: Cut): void {
  const position = { sheetId, col, row };
  const style = getters.getCellComputedStyle(position);
  const shown = getters.getEvaluatedCell(position);
  const look = cell.style;
  cell.textContent = shown.formattedValue;
  look.textAlign = style.align ?? (shown.type === "number" ? "right" : "left");
  look.verticalAlign = style.verticalAlign ?? "bottom";
  look.whiteSpace = style.wrapping === "wrap" ? "pre-line" : "nowrap";
  look.fontWeight = style.bold === true ? "bold" : "";
  look.fontStyle = style.italic === true ? "italic" : "";
  look.color = style.textColor ?? "";
  look.backgroundColor = style.fillColor ?? "";
  look.fontSize = `${style.fontSize ?? 10}pt`;
  const border = getters.getCellComputedBorder(position);
  for (const side of SIDES) {
    const line = border?.[side];
    if (line !== undefined)
      look.setProperty(`border-${side}`, `1px ${line.style === "dotted" ? "dotted" : "solid"} ${line.color}`);
  }
}

/** Letters so much smaller that the widest sheet still fits; a table shrinks its columns, not its letters. */
function scaleFor(widthPx: number): number {
  const pagePx = 970;
  return Math.min(1, pagePx / widthPx);
}

/** Drawings that lie over the same rows; `isFree` where these rows show nothing else. */
interface Band {
  readonly firstRow: number;
  readonly lastRow: number;
  readonly drawings: readonly PrintedDrawing[];
  readonly isFree: boolean;
}

function bandsOf({ getters }: Model, sheetId: string, drawings: readonly PrintedDrawing[]): readonly Band[] {
  const bands: { firstRow: number; lastRow: number; drawings: PrintedDrawing[] }[] = [];
  for (const drawing of drawings) {
    const last = bands.at(-1);
    if (last === undefined || drawing.firstRow > last.lastRow) bands.push({ ...drawing, drawings: [drawing] });
    else {
      last.lastRow = Math.max(last.lastRow, drawing.lastRow);
      last.drawings.push(drawing);
    }
  }
  // What is under a drawing is not seen on the screen either.
  const isCovered = (col: number, row: number): boolean =>
    drawings.some((one) => row >= one.firstRow && row <= one.lastRow && col >= one.firstCol && col <= one.lastCol);
  const filled = new Set<number>();
  for (const { col, row } of getters.getEvaluatedCellsPositions(sheetId)) {
    const { formattedValue } = getters.getEvaluatedCell({ sheetId, col, row });
    if (formattedValue !== "" && !isCovered(col, row)) filled.add(row);
  }
  const { ySplit } = getters.getPaneDivisions(sheetId);
  return bands.map((band) => {
    const rows = Array.from({ length: band.lastRow - band.firstRow + 1 }, (_, index) => band.firstRow + index);
    return { ...band, isFree: band.firstRow >= ySplit && !rows.some((row) => filled.has(row)) };
  });
}

function drawingsIn(band: Band): HTMLElement {
  const made = document.createElement("div");
  made.className = "printed-drawings";
  made.append(...band.drawings.map(({ element }) => element));
  return made;
}

/** A sheet for paper, and when its charts and pictures are drawn. */
export interface PrintedSheet {
  readonly elements: readonly HTMLElement[];
  readonly ready: Promise<unknown>;
}

/**
 * Makes a table of the sheet in view, with the rows that stay in view as its heading on every page. A chart or picture takes
 * the place of the empty rows beneath it, and comes behind the table where these rows are not empty.
 */
function printedSheet(model: Model, title: string): PrintedSheet {
  const { getters } = model;
  const sheetId = getters.getActiveSheetId();
  const drawings = printedDrawings(model, sheetId);
  const bands = bandsOf(model, sheetId, drawings);
  const { rows, columns } = shownHeaders(model, sheetId);
  const { ySplit } = getters.getPaneDivisions(sheetId);
  const table = document.createElement("table");
  const widths = columns.map((col) => getters.getColSize(sheetId, col));
  const width = widths.reduce((sum, size) => sum + size, 0);
  const group = document.createElement("colgroup");
  for (const size of widths) {
    const column = document.createElement("col");
    column.style.width = `${(100 * size) / width}%`;
    group.append(column);
  }
  const head = document.createElement("thead");
  const body = document.createElement("tbody");
  const placed = new Set<Band>();
  for (const row of rows) {
    const line = document.createElement("tr");
    const band = bands.find(({ firstRow, lastRow, isFree }) => isFree && row >= firstRow && row <= lastRow);
    if (band !== undefined) {
      if (placed.has(band)) continue;
      placed.add(band);
      const cell = document.createElement("td");
      cell.colSpan = Math.max(1, columns.length);
      cell.append(drawingsIn(band));
      line.append(cell);
      body.append(line);
      continue;
    }
    line.style.height = `${getters.getRowSize(sheetId, row)}px`;
    for (const col of columns) {
      const cut = cutOf(model, sheetId, col, row);
      if (cut === null) continue;
      const cell = document.createElement("td");
      cell.colSpan = Math.max(1, cut.columns);
      cell.rowSpan = Math.max(1, cut.rows);
      paint(cell, model, sheetId, cut);
      letOver(cell, model, sheetId, cut, columns);
      line.append(cell);
    }
    (row < ySplit ? head : body).append(line);
  }
  table.append(group, head, body);
  table.style.setProperty("zoom", String(scaleFor(width)));
  const heading = document.createElement("h1");
  heading.textContent = `${title} – ${getters.getSheetName(sheetId)}`;
  const behind = bands.filter((band) => !placed.has(band)).map(drawingsIn);
  return { elements: [heading, table, ...behind], ready: Promise.all(drawings.map((drawing) => drawing.ready)) };
}

/** Prints the sheet in view as a table: the grid itself is a picture of what fits the window. */
export function printBy(button: HTMLElement, printed: HTMLElement, context: PageContext): void {
  const print = async (): Promise<void> => {
    const view = context.view();
    const { elements, ready } = printedSheet(view.model, view.title());
    printed.replaceChildren(...elements);
    await ready;
    window.print();
  };
  button.addEventListener("click", () => void print());
  window.addEventListener("afterprint", () => printed.replaceChildren());
  // Before the engine, which would show a picture of the grid.
  window.addEventListener(
    "keydown",
    (event) => {
      if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "p") return;
      event.preventDefault();
      event.stopImmediatePropagation();
      void print();
    },
    { capture: true },
  );
}
