import type { UnitSystemName } from "../../core/index.js";
import { formatAddress, isInRange, parseRange } from "../../xlsx/address.js";
import { findOutletLists } from "../balance/find-outlet-lists.js";
import { type ListedRow, listedRow } from "../balance/listed-row.js";
import type { CellValue, InteractiveHost } from "../host.js";

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

type Units = KnownOpening["units"];

/** 0 stands for "not given" in a size and in a factor, as it does in every cell function. */
const given = (value: number | null) => (value === 0 ? null : value);

/** The unit that a header of one's own names: `Width, mm`, `Height (in)`. */
function unitsInHeader(header: CellValue | undefined): Units | null {
  const unit = typeof header === "string" ? /[,(]\s*(mm|in)\b/i.exec(header)?.[1]?.toLowerCase() : undefined;
  return unit === undefined ? null : unit === "mm" ? "si" : "ip";
}

function unitsInRow({ text }: ListedRow): Units | null {
  const word = text("units").toLowerCase();
  return word === "ip" || word === "si" ? word : null;
}

function openingIn(listed: ListedRow): Pick<KnownOpening, "shape" | "width" | "height" | "factor" | "factorIs"> {
  const [width, height] = [given(listed.number("width")), given(listed.number("height"))];
  const sizeIssues = listed.issues.length;
  const factor = given(listed.number("factor"));
  const isFactorRead = listed.issues.length === sizeIssues;
  const word = listed.text("assumed").toLowerCase();
  const isAssumed = word === "assumed" || word === "yes";
  const hasFactor = factor !== null || (isAssumed && isFactorRead);
  return {
    ...(sizeIssues === 0
      ? { shape: height !== null ? "rectangular" : width !== null ? "round" : null, width, height }
      : { shape: null, width: null, height: null }),
    factor,
    factorIs: hasFactor ? (isAssumed ? "assumed" : "given") : null,
  };
}

/**
 * Reads what the selected row of a list of outlets says of its opening; null outside a list, and where it says nothing.
 *
 * @param units - In which the job is measured; a row or a header that names its own counts more
 */
export async function readKnownOpening(host: InteractiveHost, units: Units): Promise<KnownOpening | null> {
  const selection = await host.selection();
  const selected = parseRange(selection?.range ?? "");
  if (selection === null || selected === undefined) return null;
  const sheets = (await host.sheets()).filter(({ name }) => name === selection.sheet);
  const [list] = await findOutletLists(host, sheets);
  const rows = parseRange(list?.rows?.range ?? "");
  if (list === undefined || rows === undefined) return null;
  const { firstRow: row } = selected;
  if (!isInRange(rows, row, rows.firstColumn)) return null;
  const headerRow = rows.firstRow - 1;
  const { sheet, columns } = list;
  const [block, header] = await host.read([
    { sheet, range: `${formatAddress(row, rows.firstColumn)}:${formatAddress(row, rows.lastColumn)}` },
    { sheet, range: formatAddress(headerRow, columns.get("width") ?? columns.get("height") ?? rows.firstColumn) },
  ]);
  if (block === undefined) return null;
  const listed = listedRow(list, block, 0);
  const opening = openingIn(listed);
  const { issues } = listed;
  if (opening.shape === null && opening.factorIs === null && issues.length === 0) return null;
  const stated = unitsInRow(listed) ?? unitsInHeader(header?.values[0]?.[0]) ?? units;
  return { sheet, row, name: listed.text("outlet"), units: stated, ...opening, issues };
}
