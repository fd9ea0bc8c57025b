import { LOOKS_AT_PLACES } from "../formula/compile-formula.js";
import type { InsideRange } from "./library-inside.js";

/** A formula as the library compiled it: its references come in the order in which they are written. */
export interface ReferringFormula {
  readonly tokens: readonly { readonly type: string; readonly value: string }[];
  readonly symbols: readonly string[];
  readonly rangeDependencies: readonly InsideRange[];
}

/** Returns the references of which a formula asks only where they lie; undefined where there are none. */
export function lookedAtPlaces(formula: ReferringFormula): ReadonlySet<InsideRange> | undefined {
  const { tokens, symbols, rangeDependencies } = formula;
  if (!symbols.some((symbol) => LOOKS_AT_PLACES.has(symbol.toUpperCase()))) return undefined;
  const calls: boolean[] = [];
  const places = new Set<InsideRange>();
  let reference = 0;
  let before = "";
  for (const { type, value } of tokens) {
    if (type === "LEFT_PAREN") calls.push(LOOKS_AT_PLACES.has(before));
    else if (type === "RIGHT_PAREN") calls.pop();
    else if (type === "REFERENCE" || type === "INVALID_REFERENCE") {
      const range = rangeDependencies[reference];
      if (calls.at(-1) === true && range !== undefined) places.add(range);
      reference += 1;
    }
    if (type !== "SPACE") before = type === "SYMBOL" ? value.toUpperCase() : "";
  }
  return places;
}

/** What the library hands over for a cell of which only the place is asked. */
function placeAlone(sheetId: string, col: number, row: number) {
  return { value: null, position: { sheetId, col, row } };
}

/** Returns the first cell of a reference by its place alone. */
export function firstPlace({ sheetId, zone }: InsideRange) {
  return placeAlone(sheetId, zone.left, zone.top);
}

/** Returns the cells of a block by their places alone, as far as its sheet goes. */
export function blockOfPlaces({ sheetId, zone }: InsideRange, sheet: InsideRange["zone"]) {
  const [right, bottom] = [Math.min(zone.right, sheet.right), Math.min(zone.bottom, sheet.bottom)];
  if (right < zone.left || bottom < zone.top) return [[]];
  return Array.from({ length: right - zone.left + 1 }, (_, across) =>
    Array.from({ length: bottom - zone.top + 1 }, (__, down) =>
      placeAlone(sheetId, zone.left + across, zone.top + down),
    ),
  );
}
