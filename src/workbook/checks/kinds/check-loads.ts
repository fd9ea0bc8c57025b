import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { type NameTable, nameTables } from "../listed/name-tables.js";
import { type Draft, grouped, oneCell } from "../support/draft.js";

const LOADS = ["heating load", "cooling load"] as const;

const isBlank = (value: unknown) => value === null || value === "";

function inTable(index: WorkbookIndex, { sheet, columns, names }: NameTable): readonly Draft[] {
  const systemColumn = columns.get("system");
  const value = (heading: string, row: number) => {
    const column = columns.get(heading);
    return column === undefined ? null : index.valueAt(sheet, row, column);
  };
  const systemOf = (row: number) =>
    String(systemColumn === undefined ? "" : (value("system", row) ?? "")).toLowerCase();
  // A room whose design was set by hand takes no share.
  const sharing = names.filter(({ row }) => isBlank(value("design set", row)));
  return [...grouped(sharing, ({ row }) => systemOf(row)).values()].flatMap((rooms) =>
    LOADS.flatMap((load): readonly Draft[] => {
      const column = columns.get(load);
      const without = rooms.filter(({ row }) => isBlank(value(load, row)));
      if (column === undefined || without.length === rooms.length) return [];
      return without.map(({ row, text }) => ({
        kind: "load-missing",
        severity: LOADS.some((one) => !isBlank(value(one, row))) ? "warning" : "error",
        sheet,
        range: oneCell(row, column),
        problem: `Room ${text.trim()} has no ${load}, and other rooms of its system have one: its share of the fan goes to them.`,
        action: `Enter its ${load}, 0 if it has none, or its design airflow if that is given.`,
      }));
    }),
  );
}

/** Rooms without a load on systems whose airflow is shared by load. */
export function checkLoads(index: WorkbookIndex): readonly Draft[] {
  return nameTables(index, "rooms").flatMap((table) => inTable(index, table));
}
