import type { UnitSystemName } from "../../core/index.js";
import { formatAddress, parseRange } from "../../xlsx/address.js";
import type { InteractiveHost } from "../host.js";
import { findLists, type ListedOutlet, placeOf, readListedOutlet, rowsOf } from "../lists/index.js";
import { hostSource } from "../source/index.js";

/** What the selected row of a list of outlets says of its opening. Null is what it does not say, never 0. */
export interface KnownOpening {
  readonly sheet: string;
  readonly row: number;
  /** The outlet's tag, "" where none stands. */
  readonly name: string;
  /** The units of the row's sizes. */
  readonly units: UnitSystemName;
  /** Null where the row gives no size, or one that cannot be read. */
  readonly shape: "round" | "rectangular" | null;
  /** Width, or the diameter of a round opening; in or mm. */
  readonly width: number | null;
  readonly height: number | null;
  /** Free-area factor. */
  readonly factor: number | null;
  /** Whether the sheet says that its factor is given or assumed. */
  readonly factorIs: "given" | "assumed" | null;
  /** What stands in the row and cannot be taken; each names its cell and says what to do. */
  readonly issues: readonly string[];
}

/** Columns of which the opening speaks. */
const OPENING = ["width", "height", "factor"] as const;

function openingOf(outlet: ListedOutlet): Pick<KnownOpening, "shape" | "width" | "height" | "factor" | "factorIs"> {
  const { width, height, factor } = outlet;
  const isClear = (key: "width" | "height" | "factor") => !issuesOf(outlet, [key]).length;
  const hasFactor = factor !== null || (outlet.factorIs === "assumed" && isClear("factor"));
  const isSized = isClear("width") && isClear("height");
  return {
    ...(isSized
      ? { shape: height !== null ? "rectangular" : width !== null ? "round" : null, width, height }
      : { shape: null, width: null, height: null }),
    factor,
    factorIs: hasFactor ? outlet.factorIs : null,
  };
}

/** What is wrong with the cells of some columns of the row. */
function issuesOf({ list, row, issues }: ListedOutlet, keys: readonly (typeof OPENING)[number][]): readonly string[] {
  const places = new Set(
    keys.flatMap((key) => {
      const column = list.columns.get(key);
      return column === undefined ? [] : [formatAddress(row.row, column)];
    }),
  );
  return issues.filter(({ place }) => places.has(place)).map((issue) => `${placeOf(issue)}: ${issue.message}`);
}

/**
 * Reads what the selected row of a list of outlets says of its opening; null outside a list, and where it says nothing.
 *
 * @param units - In which the job is measured; a row or a heading that names its own counts more
 */
export async function readKnownOpening(host: InteractiveHost, units: UnitSystemName): Promise<KnownOpening | null> {
  const selection = await host.selection();
  const selected = parseRange(selection?.range ?? "");
  if (selection === null || selected === undefined) return null;
  const sheets = (await host.sheets()).filter(({ name }) => name === selection.sheet);
  const { firstRow: row } = selected;
  const lists = findLists((await hostSource(host, sheets)).sheets).value;
  const list = lists.find(({ headerRow, lastRow }) => row > headerRow && row <= lastRow);
  if (list === undefined) return null;
  const known = [...rowsOf(list)].find((one) => one.row === row);
  if (known !== undefined && known.is !== "outlet") return null;
  const listRow = known ?? { row, is: "outlet", isBelowTable: false, hasReading: false, text: "" };
  const outlet = readListedOutlet(list, listRow, units);
  const opening = openingOf(outlet);
  const issues = issuesOf(outlet, OPENING);
  if (opening.shape === null && opening.factorIs === null && issues.length === 0) return null;
  const stated = outlet.unitsOf(list.columns.has("width") ? "width" : "height") ?? units;
  return { sheet: list.sheet, row, name: outlet.tag, units: stated, ...opening, issues };
}
