import type { UnitSystemName } from "../../../core/index.js";
import { HostError } from "../../host.js";
import { jobOf } from "../../job/index.js";
import {
  findLists,
  headingOf,
  type ListedOutlet,
  OLD_READING,
  type OutletList,
  type ReadingColumns,
  readingsOf,
  readList,
} from "../../lists/index.js";
import type { WorkbookSource } from "../../source/index.js";
import { MOST_POINTS, USUAL_POINTS } from "../template-options.js";
import {
  referenceTo,
  type TakenCell,
  taken,
  takenAverage,
  takenFactor,
  takenReading,
  unlessOld,
} from "./visit-cells.js";

/** One outlet for the sheet of before and after. */
export interface VisitedOutlet {
  readonly tag: string;
  /** By the headings of the sheet's input columns. */
  readonly cells: Readonly<Record<string, TakenCell>>;
  /** What keeps it from being compared, in sentences; "" for nothing. */
  readonly missing: string;
}

/** What a workbook's outlets say of as found and as left. */
export interface Visits {
  readonly outlets: readonly VisitedOutlet[];
  /** Reading columns that the sheet needs, before and after each. */
  readonly points: number;
  /** Null where nobody says it. */
  readonly units: UnitSystemName | null;
}

/** A list that keeps readings as found beside those as left. */
interface VisitedList {
  readonly list: OutletList;
  readonly found: ReadingColumns;
  readonly left: ReadingColumns;
}

function visited(list: OutletList): VisitedList | undefined {
  const [found, left] = [readingsOf(list, "found"), readingsOf(list, "left") ?? readingsOf(list, "now")];
  return found === undefined || left === undefined ? undefined : { list, found, left };
}

const isRead = ({ value }: TakenCell) => value !== null && value !== "";

/** The readings of one visit under their headings: B1, B2 and so on. */
function numbered(prefix: string, readings: readonly TakenCell[]): Readonly<Record<string, TakenCell>> {
  return Object.fromEntries(readings.map((reading, index) => [`${prefix}${index + 1}`, reading]));
}

/** The sweeps of a visit, or the one that its points stand for. */
function readingsIn(outlet: ListedOutlet, { holds, columns }: ReadingColumns): readonly TakenCell[] {
  if (holds === "velocity") return [takenAverage(outlet, columns)];
  return columns.map((column) => takenReading(outlet, column));
}

const sweepCount = ({ holds, columns }: ReadingColumns) => (holds === "velocity" ? 1 : columns.length);

function missingOf(outlet: ListedOutlet, found: readonly TakenCell[], left: readonly TakenCell[]): readonly string[] {
  const isAreaLarge = takenFactor(outlet) === undefined;
  return [
    ...(found.some(isRead) ? [] : ["No readings as found."]),
    ...(left.some(isRead)
      ? []
      : outlet.isOld
        ? ["Its readings are from before the last change."]
        : ["No readings as left."]),
    ...(outlet.width === null ? ["No size."] : isAreaLarge ? ["Its published area is larger than its size."] : []),
  ];
}

/** The note of an outlet, with what is missing; as a formula it says so only while it is. */
function noteOf(outlet: ListedOutlet, { found, left }: VisitedList, missing: readonly string[]): TakenCell {
  const { list, row } = outlet;
  const value = [outlet.note, ...missing].filter((text) => text !== "").join(" ");
  const count = (columns: readonly number[]) =>
    `COUNT(${columns.map((column) => referenceTo(list, row.row, column)).join(",")})=0`;
  const column = list.columns.get("note");
  const note = column === undefined ? undefined : referenceTo(list, row.row, column);
  const age = list.columns.get("age");
  const noLeft = `IF(${count(left.columns)},"No readings as left.","")`;
  const old =
    age === undefined
      ? noLeft
      : `IF(${referenceTo(list, row.row, age)}="${OLD_READING}","Its readings are from before the last change.",${noLeft})`;
  const parts = [
    ...(note === undefined ? [] : [`IF(${note}="","",${note}&" ")`]),
    `IF(${count(found.columns)},"No readings as found. ","")`,
    old,
  ];
  return { value: value === "" ? null : value, formula: `=TRIM(${parts.join("&")})` };
}

function visitedOutlet(outlet: ListedOutlet, visits: VisitedList): VisitedOutlet {
  const found = readingsIn(outlet, visits.found);
  const left = readingsIn(outlet, visits.left).map((reading) => unlessOld(outlet, reading, OLD_READING));
  const missing = missingOf(outlet, found, left);
  const factor = takenFactor(outlet);
  // Without the size there is no airflow, where a factor of 0.75 would be a wrong one.
  const size = factor === undefined ? [] : (["width", "height"] as const);
  const sides = size.map((key) => [headingOf(key), taken(outlet, key, outlet[key])] as const);
  return {
    tag: outlet.tag === "" ? `row ${outlet.row.row}` : outlet.tag,
    cells: {
      [headingOf("outlet")]: taken(outlet, "outlet", outlet.tag),
      [headingOf("system")]: taken(outlet, "system", outlet.system),
      [headingOf("room")]: taken(outlet, "room", outlet.room),
      [headingOf("kind")]: taken(outlet, "kind", outlet.kind ?? ""),
      ...Object.fromEntries(sides),
      ...(factor === undefined ? {} : { [headingOf("factor")]: factor }),
      [headingOf("design")]: taken(outlet, "design", outlet.design),
      ...numbered("B", found),
      ...numbered("A", left),
      [headingOf("note")]: noteOf(outlet, visits, missing),
    },
    missing: missing.join(" "),
  };
}

/** Every system of units in which a list has what goes along. */
function unitsIn({ list, found, left }: VisitedList, outlets: readonly ListedOutlet[]): readonly UnitSystemName[] {
  const columns = [...found.columns, ...left.columns];
  return outlets.flatMap((outlet) => [
    ...(["width", "design"] as const).flatMap((key) => outlet.unitsOf(key) ?? []),
    ...columns.flatMap((column) => list.columnUnits.get(column) ?? outlet.units ?? []),
  ]);
}

/**
 * Reads the outlets of a workbook as found and as left, for a sheet of before and after.
 *
 * @param from - How the workbook is called in messages
 * @throws {HostError} Where no list of it keeps readings as found beside others, or where it mixes units
 */
export function visitsOf(workbook: WorkbookSource, from: string): Visits {
  const statedUnits = jobOf(workbook)?.statedUnits ?? null;
  const lists = findLists(workbook)
    .value.filter(({ form }) => form !== "before and after")
    .flatMap((list) => visited(list) ?? []);
  if (lists.length === 0) {
    throw new HostError(
      `${from} has no list with readings as found beside those as left. Start it with “vanesheet new room-balance FILE --with visits”, or choose that block in the pane.`,
    );
  }
  if (lists.some(({ list }) => list.columns.has("velocityFactor"))) {
    throw new HostError(
      `${from} is for a thermal meter; before and after takes readings for actual velocity. Compare Airflow as found with Airflow in that workbook.`,
    );
  }
  const read = lists.map((one) => ({ one, outlets: readList(one.list, statedUnits).outlets }));
  const units = new Set(read.flatMap(({ one, outlets }) => unitsIn(one, outlets)));
  if (units.size > 1) throw new HostError(`${from} mixes inch-pound and SI units. Give every list the same units.`);
  const outlets = read.flatMap(({ one, outlets: rows }) => rows.map((outlet) => visitedOutlet(outlet, one)));
  if (outlets.length === 0) throw new HostError(`${from} has no outlets yet. Fill its list of outlets first.`);
  const points = Math.max(
    USUAL_POINTS["before-after"],
    ...lists.flatMap(({ found, left }) => [sweepCount(found), sweepCount(left)]),
  );
  if (points > MOST_POINTS)
    throw new HostError(`${from} has ${points} sweeps for an outlet; at most ${MOST_POINTS} fit.`);
  return { outlets, points, units: [...units][0] ?? null };
}

/** The outlets that cannot be compared, each with what is missing; "" where there is none. */
export function missingInWords({ outlets }: Visits): string {
  const named = outlets.filter(({ missing }) => missing !== "").map(({ tag, missing }) => `${tag}: ${missing}`);
  return named.length === 0 ? "" : `Not compared: ${named.join(" ")}`;
}
