import type { InteractiveHost } from "../host.js";
import { findPlace } from "./find-place.js";
import { ownBlockPlacement } from "./own-block-placement.js";
import type { Placement, Refusal } from "./placement.js";
import { rowPlacement } from "./row-placement.js";
import type { TakenMeasurement } from "./taken.js";
import { traverseSheetPlacement } from "./traverse-sheet-placement.js";

/**
 * Plans where the selection puts a measurement; writes nothing.
 *
 * Into the selected row of a known table, into a sheet for a traverse, or from an empty cell on as a block of its own.
 */
export async function planPlacement(host: InteractiveHost, taken: TakenMeasurement): Promise<Placement | Refusal> {
  const place = await findPlace(host);
  switch (place.kind) {
    case "row":
      return rowPlacement(host, place, taken);
    case "traverse sheet":
      return traverseSheetPlacement(host, place, taken);
    case "empty cell":
      return ownBlockPlacement(host, place, taken);
    case "none":
      return { refusal: place.reason };
  }
}
