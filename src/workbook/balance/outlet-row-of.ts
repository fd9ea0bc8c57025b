import {
  cfmFromLitersPerSecond,
  fpmFromMetersPerSecond,
  litersPerSecondFromCfm,
  metersPerSecondFromFpm,
  squareFeetFromSquareMeters,
  squareMetersFromSquareFeet,
  type UnitSystemName,
} from "../../core/index.js";
import { formatAddress } from "../../xlsx/address.js";
import {
  countingAreaFt2,
  hasRowFormula,
  inUnits,
  type ListColumnKey,
  type ListedOutlet,
  type OutletList,
  type ReadingColumns,
  readingsOf,
} from "../lists/index.js";
import { shownCell } from "../source/index.js";
import type { OutletRow } from "./outlet-row.js";

/** The cells of a list that take a new reading, and those for what stood in them. */
interface EntryColumns {
  readonly entry: OutletRow["entry"];
  readonly columns: readonly number[];
  readonly foundColumns: readonly number[];
}

/** Sweeps need their times beside, so a single reading has no cell among them. */
const pointsOf = (readings: ReadingColumns | undefined) => (readings?.holds === "velocity" ? readings.columns : []);

function entryColumns(list: OutletList, row: number): EntryColumns {
  const [now, found, left] = (["now", "found", "left"] as const).map((state) => pointsOf(readingsOf(list, state)));
  const column = (key: ListColumnKey) => list.columns.get(key) ?? [];
  const velocities = left?.length ? left : (now ?? []);
  if (velocities.length > 0) {
    return { entry: "velocities", columns: velocities, foundColumns: found ?? [] };
  }
  // In a sheet of one's own the airflow of a hood may be the only thing that is typed.
  const isOwn = list.foundBy === "mapping" && !list.columns.has("left") && !hasRowFormula(list, row, "airflow");
  const airflow = isOwn ? column("airflow") : column("left");
  return { entry: "airflow", columns: [airflow].flat(), foundColumns: [column("found")].flat() };
}

/** Times a figure in the units of the job gives one of a column. */
function scaleOf(
  { columnUnits, columnScales }: OutletList,
  { entry, columns }: EntryColumns,
  units: UnitSystemName,
): number {
  const [column = 0] = columns;
  const own = columnUnits.get(column) ?? units;
  const [toSi, toIp] =
    entry === "velocities"
      ? [metersPerSecondFromFpm, fpmFromMetersPerSecond]
      : [litersPerSecondFromCfm, cfmFromLitersPerSecond];
  const one = own === units ? 1 : own === "si" ? toSi(1) : toIp(1);
  return one / (columnScales.get(column) ?? 1);
}

/** Converts what a column holds into the units of the job. */
function converter(outlet: ListedOutlet, units: UnitSystemName) {
  const inJob = (toSi: (value: number) => number, toIp: (value: number) => number) => {
    return (value: number | null, key: ListColumnKey) => {
      const from = outlet.unitsOf(key) ?? units;
      if (value === null || from === units) return value;
      return units === "si" ? toSi(value) : toIp(value);
    };
  };
  return {
    flow: inJob(litersPerSecondFromCfm, cfmFromLitersPerSecond),
    area: inJob(squareMetersFromSquareFeet, squareFeetFromSquareMeters),
  };
}

function factorOf({ factor, factorIs }: ListedOutlet): OutletRow["factor"] {
  if (factor === null || factorIs === "assumed") return "assumed";
  return factor === 1 ? "none" : "given";
}

const times = (area: number | null, factor: number | null) => (area === null || factor === null ? null : area * factor);

/** One outlet of a list as balancing asks for it, in the units of the job. */
export function outletRow(outlet: ListedOutlet, units: UnitSystemName): OutletRow {
  const { list, row, tag, now, found, left } = outlet;
  const { sheet, source } = list;
  const { flow, area } = converter(outlet, units);
  const single = (column: number) => ({ sheet, range: formatAddress(row.row, column) });
  const entries = entryColumns(list, row.row);
  const { entry, columns, foundColumns } = entries;
  const entryScale = scaleOf(list, entries, units);
  const isFree = foundColumns.every(
    (column) => shownCell(source, row.row, column).kind === "blank" && !source.hasFormula(row.row, column),
  );
  const age = list.columns.get("age");
  const before = flow(found.flow, "found");
  // Beside an airflow as found the one that now is stands for the one as left.
  const after = flow(left.flow, "left") ?? (before === null ? null : flow(now.flow, "airflow"));
  const freeFt2 = countingAreaFt2(inUnits(outlet.opening, units));
  const counting = freeFt2 === null || units === "ip" ? freeFt2 : squareMetersFromSquareFeet(freeFt2);
  return {
    id: `${sheet}!${row.row}`,
    name: tag === "" ? `row ${row.row}` : tag,
    sheet,
    row: row.row,
    system: outlet.system,
    branch: outlet.branch,
    room: outlet.room,
    kind: outlet.kindText.toLowerCase(),
    design: flow(outlet.design, "design"),
    measured: after ?? flow(now.flow, "airflow") ?? before,
    before,
    after,
    freeArea: times(area(outlet.freeArea, "freeArea") ?? counting, outlet.opening.velocityFactor),
    factor: factorOf(outlet),
    expandedPercent: outlet.doubtPercent,
    entry,
    entryCells: columns.map(single),
    entryScale,
    asFoundCells: isFree && foundColumns.length === columns.length ? foundColumns.map(single) : [],
    entered: columns.map((column) => {
      const value = source.valueAt(row.row, column);
      if (typeof value === "number" && entryScale !== 1) return value / entryScale;
      return typeof value === "object" ? null : value;
    }),
    isOld: outlet.isOld,
    ageCell: age === undefined ? null : single(age),
    cell: single(list.columns.get("outlet") ?? 1),
  };
}
