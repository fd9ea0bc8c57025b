import { type BlockEdit, HostError } from "../host.js";
import { OLD_READING } from "../lists/index.js";
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
 * Returns the edits that say in the sheet which readings are older than the last change; none where nothing changes or
 * the list has no column for it.
 *
 * @param outlets - Of one system
 * @param isOld - Whether the reading of an outlet is old now
 */
export function ageEdits(outlets: readonly OutletRow[], isOld: (outlet: OutletRow) => boolean): readonly BlockEdit[] {
  return outlets.flatMap((outlet) => {
    const now = outlet.measured !== null && isOld(outlet);
    if (outlet.ageCell === null || now === outlet.isOld) return [];
    return [{ address: outlet.ageCell, cells: [[now ? OLD_READING : null]] }];
  });
}

/**
 * Returns the edits that keep an outlet's readings as found, in the list's own cells for them; none where the list has
 * no free place, or nothing was read yet.
 */
export function asFoundEdits({ asFoundCells, entered, entryScale, measured }: OutletRow): readonly BlockEdit[] {
  if (measured === null) return [];
  return asFoundCells.map((address, index) => ({ address, cells: [[inCell(entered[index], entryScale)]] }));
}
