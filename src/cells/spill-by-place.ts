import type { BalanceOutlet } from "../core/index.js";
import { type CellResult, NOTHING_YET } from "./guard.js";
import type { OutletBlock } from "./read-outlets.js";

/** Core's results come by name, and two rooms may bear the same: inside one call an outlet is named by its place. */
export function spillByPlace(
  { outlets, spill }: OutletBlock,
  results: (numbered: readonly BalanceOutlet[]) => Iterable<readonly [string, CellResult]>,
): CellResult[][] {
  const placeOf = new Map(outlets.map((outlet, place) => [outlet, String(place)]));
  const numbered = outlets.map((outlet, place) => ({ ...outlet, name: String(place) }));
  const byPlace = new Map(outlets.length === 0 ? [] : results(numbered));
  return spill((outlet) => byPlace.get(placeOf.get(outlet) ?? "") ?? NOTHING_YET);
}
