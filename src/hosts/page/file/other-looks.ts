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

/** A look without what the engine gives a cell by itself when a number, a percentage or a date is typed into it. */
function withoutTyped(list: LookList, look: string | undefined): string {
  if (list === "formats" || look === undefined) return "{}";
  const { align: _, ...rest } = JSON.parse(look) as { readonly align?: unknown };
  return JSON.stringify(rest);
}

/**
 * Says whether cells look different now.
 *
 * @param edited - Addresses of cells that were entered: only what typing does not do counts there, as a paste does it
 */
export function hasOtherLooks(before: SheetIn, after: SheetIn, list: LookList, edited: ReadonlySet<string>): boolean {
  const [old, now] = [zonesOf(before, list), zonesOf(after, list)];
  const [oldLooks, newLooks] = [cellLooks(old, now), cellLooks(now, old)];
  const differs = (address: string): boolean => {
    const [was, is] = [oldLooks.get(address), newLooks.get(address)];
    if (!edited.has(address)) return was !== is;
    return withoutTyped(list, was) !== withoutTyped(list, is);
  };
  return [...oldLooks.keys()].some(differs) || [...newLooks.keys()].some(differs);
}
