import type { Model } from "@odoo/o-spreadsheet";
import { type CellEdit, editCells, isLockedCell, typedContent } from "../../engine/index.js";
import { type BlockEdit, HostError } from "../../workbook/index.js";
import { formatAddress } from "../../xlsx/address.js";
import { type CellPlace, cellFormula, placesOf } from "./cells-of.js";

const FAILURE = "Nothing was written.";

type Given = BlockEdit["cells"][number][number];

/** A formula's result that fills several cells belongs to that formula. */
function isFilledByNeighbour({ getters }: Model, place: CellPlace): boolean {
  const source = getters.getArrayFormulaSpreadingOn(place);
  return source !== undefined && (source.col !== place.col || source.row !== place.row);
}

function plannedCell(model: Model, sheet: string, place: CellPlace, given: Given): CellEdit {
  const at = `${sheet}!${formatAddress(place.row + 1, place.col + 1)}`;
  if (typeof given === "number" && !Number.isFinite(given)) {
    throw new HostError(`${FAILURE} The value for ${at} is not a finite number.`);
  }
  const isFormula = typeof given === "string" && given.startsWith("=");
  if (!isFormula && cellFormula(model, place) !== null) {
    throw new HostError(`${FAILURE} ${at} holds a formula. Choose input cells.`);
  }
  if (isLockedCell(model.getters, place)) {
    throw new HostError(
      `${FAILURE} ${at} is locked, and its sheet is protected. Use the input cells, or take the protection off.`,
    );
  }
  if (isFilledByNeighbour(model, place)) {
    throw new HostError(`${FAILURE} ${at} is filled by the result of a formula. Choose cells beside it.`);
  }
  return { ...place, content: typedContent(given) };
}

function plannedEdits(model: Model, { address, cells }: BlockEdit): readonly CellEdit[] {
  const places = placesOf(model, address);
  if (cells.length !== places.length || cells.some((row, index) => row.length !== places[index]?.length)) {
    throw new HostError(
      `${FAILURE} ${address.sheet}!${address.range} has ${places.length} rows and ${places[0]?.length} columns, and other cells were given for it.`,
    );
  }
  const sheetId = places[0]?.[0]?.sheetId;
  if (sheetId !== undefined && model.getters.isSheetLocked(sheetId)) {
    throw new HostError(`${FAILURE} The sheet “${address.sheet}” is locked. Unlock it first.`);
  }
  return places.flatMap((row, rowIndex) =>
    row.map((place, columnIndex) => plannedCell(model, address.sheet, place, cells[rowIndex]?.[columnIndex] ?? null)),
  );
}

/** Writes blocks in one step, whole or not at all: everything is checked before anything is written. */
export function writeBlocks(model: Model, edits: readonly BlockEdit[]): void {
  const planned = edits.flatMap((edit) => plannedEdits(model, edit));
  if (planned.length > 0) editCells(model, planned);
}
