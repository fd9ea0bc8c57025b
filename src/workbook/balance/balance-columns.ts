/** What a column of a list of outlets holds, as far as balancing asks. */
export type BalanceColumn =
  | "outlet"
  | "system"
  | "branch"
  | "room"
  | "kind"
  | "width"
  | "height"
  | "factor"
  | "assumed"
  | "units"
  | "free"
  | "design"
  | "measured"
  | "before"
  | "after"
  | "doubt";

/** Where the columns of a list of outlets stand, counted from 1. */
export interface ListedColumns {
  readonly columns: ReadonlyMap<BalanceColumn, number>;
  /** The columns for single readings at the outlet as it now is, in their order. */
  readonly readings: readonly number[];
  /** Those for the readings as found, one beside each of `readings`; none where the list has no place for them. */
  readonly readingsBefore: readonly number[];
}

/** The headers of our templates, and those that a sheet of one's own is likely to have. */
const HEADERS: Readonly<Record<BalanceColumn, readonly string[]>> = {
  outlet: ["outlet"],
  system: ["system"],
  branch: ["branch"],
  room: ["room"],
  kind: ["kind", "air"],
  width: ["width or diameter", "width or ⌀", "width"],
  height: ["height"],
  factor: ["factor", "free-area factor"],
  assumed: ["factor assumed", "factor is"],
  units: ["units"],
  free: ["free area"],
  design: ["design airflow", "design"],
  measured: ["airflow"],
  before: ["airflow before", "measured before"],
  after: ["airflow after", "measured after"],
  doubt: ["± percent"],
};

/** Readings as found, where readings as left have columns of their own: B1 beside A1. */
const READING_BEFORE = /^b\d{1,2}$/;

/** Readings of now: R1 of a balance, A1 of a comparison, Point 1 of a plain list. */
const READING = /^(?:r|a|point )\d{1,2}$/;

/** A header without what stands behind a comma or in brackets, which is its unit. */
function plainHeader(header: string): string {
  return header
    .trim()
    .toLowerCase()
    .replace(/\s+/g, " ")
    .replace(/(?:,| \().*$/, "");
}

/** Returns where the columns stand if a row is the header of a list of outlets, null otherwise. */
export function listedColumns(cells: readonly unknown[], firstColumn: number): ListedColumns | null {
  const headers = cells.map((cell) => (typeof cell === "string" ? plainHeader(cell) : ""));
  const columns = new Map<BalanceColumn, number>();
  for (const [key, names] of Object.entries(HEADERS)) {
    const place = headers.findIndex((header) => names.includes(header));
    if (place >= 0) columns.set(key as BalanceColumn, firstColumn + place);
  }
  const isList = columns.has("outlet") && columns.has("design") && (columns.has("measured") || columns.has("after"));
  if (!isList) return null;
  const placesOf = (header: RegExp) =>
    headers.flatMap((text, index) => (header.test(text) ? [firstColumn + index] : []));
  const [readings, found] = [placesOf(READING), placesOf(READING_BEFORE)];
  const isPaired = headers.includes("a1") && found.length === readings.length;
  return { columns, readings, readingsBefore: isPaired ? found : [] };
}
