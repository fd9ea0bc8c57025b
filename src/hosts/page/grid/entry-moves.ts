import type { Model } from "@odoo/o-spreadsheet";
import { isLockedCell, isProtectedSheet } from "../../../engine/index.js";

export type Direction = "up" | "down" | "left" | "right";

/** Goes on from the selected cell by Tab or Enter. */
export type EntryMove = (direction: Direction) => void;

interface Place {
  readonly sheetId: string;
  readonly col: number;
  readonly row: number;
}

/** Cells that were gone through by Tab, from the first. */
interface Run {
  readonly first: Place;
  readonly last: Place;
}

const isSame = (one: Place, other: Place): boolean =>
  one.sheetId === other.sheetId && one.col === other.col && one.row === other.row;

/** Whether a cell is in view and takes an entry. */
function isInput(getters: Model["getters"], place: Place): boolean {
  const { sheetId, col, row } = place;
  if (getters.isColHidden(sheetId, col) || getters.isRowHidden(sheetId, row)) return false;
  return isSame(getters.getMainCellPosition(place), place) && !isLockedCell(getters, place);
}

/** The next cell after another or before it that takes an entry, row by row; undefined where there is none. */
function nextInput({ getters }: Model, { sheetId, col, row }: Place, step: 1 | -1): Place | undefined {
  const [columns, rows] = [getters.getNumberCols(sheetId), getters.getNumberRows(sheetId)];
  for (let index = row * columns + col + step; index >= 0 && index < columns * rows; index += step) {
    const place = { sheetId, col: index % columns, row: Math.floor(index / columns) };
    if (isInput(getters, place)) return place;
  }
  return undefined;
}

/**
 * Goes through the cells of a selected block: down its columns by Enter, along its rows by Tab. On a protected sheet it goes
 * to the next of them that takes an entry, where there is one.
 */
function moveWithin({ getters, selection }: Model, direction: Direction): void {
  const { anchor } = getters.getSelection();
  const { left, top, right, bottom } = anchor.zone;
  const [width, height] = [right - left + 1, bottom - top + 1];
  const [across, down] = [anchor.cell.col - left, anchor.cell.row - top];
  const isDown = direction === "up" || direction === "down";
  const step = direction === "up" || direction === "left" ? -1 : 1;
  const count = width * height;
  const here = isDown ? across * height + down : down * width + across;
  const sheetId = getters.getActiveSheetId();
  const placeAt = (steps: number): Place => {
    const index = (((here + steps * step) % count) + count) % count;
    const [major, minor] = isDown
      ? [Math.floor(index / height), index % height]
      : [index % width, Math.floor(index / width)];
    return { sheetId, col: left + major, row: top + minor };
  };
  let steps = 1;
  if (isProtectedSheet(getters, sheetId)) {
    while (steps < count && !isInput(getters, placeAt(steps))) steps += 1;
    if (!isInput(getters, placeAt(steps))) steps = 1;
  }
  const { col, row } = placeAt(steps);
  selection.updateAnchorCell(col, row, { scrollIntoView: true });
}

/**
 * Returns how Tab and Enter go on in a workbook, as in every spreadsheet program: Enter goes down and Tab to the right;
 * Enter after a run of Tabs goes to the first column of the run in the next row. On a protected sheet Tab goes to the next
 * cell that takes an entry.
 */
export function entryMoves(model: Model): EntryMove {
  const { getters, selection } = model;
  let run: Run | null = null;
  const byTab = (here: Place, direction: "left" | "right"): void => {
    const first: Place = run !== null && isSame(run.last, here) ? run.first : here;
    const next = isProtectedSheet(getters, here.sheetId)
      ? nextInput(model, here, direction === "right" ? 1 : -1)
      : undefined;
    if (next === undefined) selection.moveAnchorCell(direction, 1);
    else selection.selectCell(next.col, next.row);
    const last = getters.getActivePosition();
    // Beyond the end of a row there is another run.
    run = last.row === here.row ? { first: last.col < first.col ? last : first, last } : null;
  };
  return (direction) => {
    const here = getters.getActivePosition();
    if (!getters.isSingleCellOrMerge(here.sheetId, getters.getSelectedZone())) moveWithin(model, direction);
    else if (direction === "left" || direction === "right") byTab(here, direction);
    else {
      const isAfterRun = direction === "down" && run !== null && isSame(run.last, here);
      const col = isAfterRun ? (run as Run).first.col : here.col;
      run = null;
      selection.moveAnchorCell(direction, 1);
      const { row } = getters.getActivePosition();
      if (col !== here.col) selection.selectCell(col, row);
    }
  };
}
