import { type BlockEdit, HostError } from "../host.js";
import type { OutletRow } from "./outlet-row.js";

type Entered = OutletRow["entered"][number];

/** More digits than a meter has, and fewer than a conversion leaves. */
const DIGITS = 12;

/** A figure in the units of the job as the cell wants it. */
function inCell(entered: Entered | undefined, scale: number): Entered {
  if (typeof entered !== "number" || scale === 1) return entered ?? null;
  return Number((entered * scale).toPrecision(DIGITS));
}

/**
 * Returns the edits that put new readings into an outlet's cells; what stood there of an earlier setting goes.
 *
 * @throws {HostError} When there is no cell for them, or more readings than cells
 */
export function readingEdits(
  { name, sheet, entryCells, entryScale }: OutletRow,
  readings: readonly Entered[],
): readonly BlockEdit[] {
  if (entryCells.length === 0) {
    throw new HostError(`“${sheet}” has no column for readings of ${name}. Nothing was written.`);
  }
  if (readings.length > entryCells.length) {
    throw new HostError(
      `${name} has room for ${entryCells.length} readings, and ${readings.length} were given. Nothing was written.`,
    );
  }
  return entryCells.map((address, index) => ({ address, cells: [[inCell(readings[index], entryScale)]] }));
}

/**
 * Returns the edits that keep an outlet's readings as found, in the list's own cells for them; none where the list has
 * no free place, or nothing was read yet.
 */
export function asFoundEdits({ asFoundCells, entered, entryScale, measured }: OutletRow): readonly BlockEdit[] {
  if (measured === null) return [];
  return asFoundCells.map((address, index) => ({ address, cells: [[inCell(entered[index], entryScale)]] }));
}
