import { type BlockEdit, HostError } from "../host.js";
import type { OutletRow } from "./outlet-row.js";

type Entered = OutletRow["entered"][number];

/**
 * Returns the edits that put new readings into an outlet's cells; what stood there of an earlier setting goes.
 *
 * @throws {HostError} When there is no cell for them, or more readings than cells
 */
export function readingEdits(
  { name, sheet, entryCells }: OutletRow,
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
  return entryCells.map((address, index) => ({ address, cells: [[readings[index] ?? null]] }));
}

/**
 * Returns the edits that keep an outlet's readings as found, in the list's own cells for them; none where the list has
 * no free place, or nothing was read yet.
 */
export function asFoundEdits({ asFoundCells, entered, measured }: OutletRow): readonly BlockEdit[] {
  if (measured === null) return [];
  return asFoundCells.map((address, index) => ({ address, cells: [[entered[index] ?? null]] }));
}
