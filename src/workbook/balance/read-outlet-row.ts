import type { UnitSystemName } from "../../core/index.js";
import { formatAddress } from "../../xlsx/address.js";
import type { CellBlock, CellValue } from "../host.js";
import type { OutletList } from "./find-outlet-lists.js";
import { isBlank, listedRow } from "./listed-row.js";
import type { OutletRow } from "./outlet-row.js";
import { statedFreeArea } from "./stated-free-area.js";

/** A row that was read, with what stands in it and cannot be taken. */
export interface ReadOutlet {
  /** Null for a row without an outlet. */
  readonly value: OutletRow | null;
  readonly issues: readonly string[];
}

/**
 * Reads one outlet of a list.
 *
 * @param block - The list's rows as the host read them
 * @param index - The row in the block, from 0
 */
export function readOutletRow(list: OutletList, block: CellBlock, index: number, units: UnitSystemName): ReadOutlet {
  const { sheet, columns } = list;
  const { row, issues, find, valueAt, hasFormula, text, number } = listedRow(list, block, index);
  const single = (column: number) => ({ sheet, range: formatAddress(row, column) });

  const name = text("outlet");
  const design = number("design");
  const [measured, before, after] = [number("measured"), number("before"), number("after")];
  const current = after ?? measured ?? before;
  if (name === "" && design === null && current === null) return { value: null, issues: [] };
  const given = number("factor");
  const airflowColumn = columns.get("after");
  const velocities = list.readings.length > 0;
  const entryColumns = velocities ? list.readings : airflowColumn === undefined ? [] : [airflowColumn];
  const beforeColumn = columns.get("before");
  const beforeColumns = velocities ? list.readingsBefore : beforeColumn === undefined ? [] : [beforeColumn];
  const isFree = beforeColumns.every((column) => isBlank(valueAt(column)) && !hasFormula(column));
  const value: OutletRow = {
    id: `${sheet}!${row}`,
    name: name === "" ? `row ${row}` : name,
    sheet,
    row,
    system: text("system"),
    branch: text("branch"),
    room: text("room"),
    kind: text("kind").toLowerCase(),
    design: positiveDesign(design, list, row, find),
    measured: current,
    before,
    after,
    freeArea:
      number("free") ?? statedFreeArea({ width: number("width"), height: number("height"), factor: given }, units),
    factor: given === null || text("assumed").toLowerCase() === "yes" ? "assumed" : given === 1 ? "none" : "given",
    expandedPercent: number("doubt"),
    entry: velocities ? "velocities" : "airflow",
    entryCells: entryColumns.map(single),
    asFoundCells: isFree && beforeColumns.length === entryColumns.length ? beforeColumns.map(single) : [],
    entered: entryColumns.map((column) => plain(valueAt(column))),
    cell: single(columns.get("outlet") ?? 1),
  };
  return { value, issues };
}

function positiveDesign(
  design: number | null,
  list: OutletList,
  row: number,
  find: (issue: string) => void,
): number | null {
  if (design === null || design > 0) return design;
  const place = `${list.sheet}!${formatAddress(row, list.columns.get("design") ?? 1)}`;
  find(`${place} asks for ${design}. Enter a design airflow above 0, or empty the cell.`);
  return null;
}

function plain(value: CellValue): number | string | boolean | null {
  return typeof value === "object" ? null : value;
}
