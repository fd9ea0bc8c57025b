import type { UnitSystemName } from "../../../core/index.js";
import { airflowUnit } from "../../job/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type NameTable, nameTables, type TableName } from "../listed/name-tables.js";
import { type Draft, oneCell, shownNumber } from "../support/draft.js";
import { DESIGNS_APART_RATIO, ROUNDED_DESIGN } from "../thresholds.js";

/** Designs that are to come to one figure: what they belong to, and each of them; null where one is missing. */
interface Sum {
  readonly of: string;
  readonly to: string;
  readonly parts: readonly (number | null)[];
  readonly whole: number | null;
  /** Of the designs; null where no column says. */
  readonly units: UnitSystemName | null;
  /** Whether the parts may come to more by the way they are found. */
  readonly mayPass: boolean;
}

const LOADS = ["heating load", "cooling load"] as const;

const numberIn = (value: unknown) => (typeof value === "number" ? value : null);
const same = (one: string, other: string) => one.toLowerCase() === other.toLowerCase();

function drafted(
  sheet: number,
  row: number,
  column: number,
  { of, to, parts, whole, units, mayPass }: Sum,
): readonly Draft[] {
  const known = parts.filter((part) => part !== null);
  // Where one is missing there is no sum to compare.
  if (whole === null || whole <= 0 || parts.length === 0 || known.length < parts.length) return [];
  const sum = known.reduce((total, part) => total + part, 0);
  const off = sum - whole;
  const allowed = Math.max(DESIGNS_APART_RATIO * whole, ROUNDED_DESIGN * parts.length);
  if (Math.abs(off) <= allowed || (mayPass && off > 0)) return [];
  const percent = shownNumber(Number(((Math.abs(off) / whole) * 100).toPrecision(3)));
  const flow = (airflow: number) => `${shownNumber(airflow)}${units === null ? "" : ` ${airflowUnit(units)}`}`;
  return [
    {
      kind: "designs-apart",
      severity: "warning",
      sheet,
      range: oneCell(row, column),
      problem: `${of} add up to ${flow(sum)} by design; the design of ${to} is ${flow(whole)}. They are ${percent} % ${off > 0 ? "over" : "under"}.`,
      action: "Change one of the designs, so that they agree.",
    },
  ];
}

/** The lists that rooms add up: other sheets of a workbook list the same outlets again. */
function summedLists(lists: readonly CheckedList[]): readonly CheckedList[] {
  const balances = lists.filter(({ list }) => list.form === "room balance");
  return balances.length > 0 ? balances : lists.filter(({ list }) => list.form === "own");
}

/** The column of a heading, or that of the names: where the difference is told. */
function columnOf({ columns }: NameTable, heading: string, name: string): number {
  return columns.get(heading) ?? columns.get(name) ?? 1;
}

/**
 * Designs that do not add up: the outlets of a room against the room, and outlets and rooms of a system against its fan.
 * Rooms that take the larger of two shares may come to more than the fan moves in either season.
 */
export function checkDesignsApart(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  const supply = summedLists(lists)
    .flatMap(({ outlets }) => outlets)
    .filter(({ kind }) => kind === "supply");
  const units = supply[0]?.unitsOf("design") ?? null;
  const valueAt = ({ sheet, columns }: NameTable, { row }: TableName, heading: string) => {
    const column = columns.get(heading);
    return column === undefined ? null : index.valueAt(sheet, row, column);
  };
  const rooms = nameTables(index, "rooms").flatMap((table) =>
    table.names.map((name) => ({
      table,
      name,
      system: String(valueAt(table, name, "system") ?? ""),
      design: numberIn(valueAt(table, name, "design airflow")),
      hasBothLoads: LOADS.every((load) => numberIn(valueAt(table, name, load)) !== null),
    })),
  );
  const inRooms = rooms.flatMap(({ table, name, design }) => {
    const parts = supply.filter(({ room }) => same(room, name.text.trim())).map((outlet) => outlet.design);
    return drafted(table.sheet, name.row, columnOf(table, "design of outlets", "room"), {
      of: `The outlets of room ${name.text.trim()}`,
      to: "the room",
      parts,
      whole: design,
      units,
      mayPass: false,
    });
  });
  const inSystems = nameTables(index, "systems").flatMap((table) =>
    table.names.flatMap((name) => {
      const system = name.text.trim();
      const whole = numberIn(valueAt(table, name, "supply design"));
      const own = rooms.filter((room) => same(room.system.trim(), system));
      const parts = supply.filter((outlet) => same(outlet.system, system)).map((outlet) => outlet.design);
      const to = "its fan";
      return [
        ...drafted(table.sheet, name.row, columnOf(table, "design of outlets", "system"), {
          of: `The outlets of system ${system}`,
          to,
          parts,
          whole,
          units,
          mayPass: own.some(({ hasBothLoads }) => hasBothLoads),
        }),
        ...drafted(table.sheet, name.row, columnOf(table, "design of rooms", "system"), {
          of: `The rooms of system ${system}`,
          to,
          parts: own.map(({ design }) => design),
          whole,
          units,
          mayPass: own.some(({ hasBothLoads }) => hasBothLoads),
        }),
      ];
    }),
  );
  return [...inRooms, ...inSystems];
}
