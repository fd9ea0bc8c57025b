import { formatAddress, parseRange } from "../../../xlsx/index.js";
import type { ExportedSheet, ExportedWorkbook } from "./engine-export.js";

/** A list of looks, by range. */
export type LookList = "styles" | "formats" | "borders";

interface SheetIn {
  readonly sheet: ExportedSheet;
  readonly workbook: ExportedWorkbook;
}

/** Ranges with what they look like, each as one text. */
function zonesOf(
  { sheet, workbook }: SheetIn,
  list: LookList,
): ReadonlyMap<string, readonly [range: string, look: string]> {
  const zones = (sheet[list] ?? {}) as Readonly<Record<string, string | number>>;
  return new Map(
    Object.entries(zones).map(([range, number]) => {
      const look = JSON.stringify(workbook[list][number]);
      return [`${range} ${look}`, [range, look]];
    }),
  );
}

/** Looks by cell of the zones that the other list does not have. */
function cellLooks(zones: ReturnType<typeof zonesOf>, others: ReturnType<typeof zonesOf>): ReadonlyMap<string, string> {
  const looks = new Map<string, string>();
  for (const [key, [text, look]] of zones) {
    const range = others.has(key) ? undefined : parseRange(text);
    if (range === undefined) continue;
    for (let row = range.firstRow; row <= range.lastRow; row += 1) {
      for (let column = range.firstColumn; column <= range.lastColumn; column += 1) {
        looks.set(formatAddress(row, column), look);
      }
    }
  }
  return looks;
}

/**
 * Says whether cells look different now.
 *
 * @param edited - Addresses that do not count
 */
export function hasOtherLooks(before: SheetIn, after: SheetIn, list: LookList, edited: ReadonlySet<string>): boolean {
  const [old, now] = [zonesOf(before, list), zonesOf(after, list)];
  const [oldLooks, newLooks] = [cellLooks(old, now), cellLooks(now, old)];
  const differs = (address: string): boolean => !edited.has(address) && oldLooks.get(address) !== newLooks.get(address);
  return [...oldLooks.keys()].some(differs) || [...newLooks.keys()].some(differs);
}
