import { type CellRange, parseRange } from "../../xlsx/address.js";
import type { InteractiveHost } from "../host.js";
import {
  AIRFLOW_KEYS,
  findLists,
  hasRowFormula,
  listAt,
  type OutletList,
  type ReadingState,
  readingsOf,
  rowCell,
  rowsOf,
} from "../lists/index.js";
import { hostSource, type SheetSource, shownText } from "../source/index.js";
import { ROWS } from "../template/duct-traverse/places.js";
import { type SheetPlace, shownBlock } from "./sheet-place.js";

/** Whether a sheet is the template for one duct traverse, every cell where it was made. */
function isTraverseSheet({ valueAt }: SheetSource): boolean {
  const { gridHeader } = ROWS;
  return valueAt(1, 1) === "Duct traverse" && valueAt(gridHeader, 1) === "Point" && valueAt(gridHeader, 3) === "Line A";
}

/** As found or as left, by the cell that is selected; as it now is where the list has one state. */
function stateOf(list: OutletList, { firstColumn }: CellRange): ReadingState {
  const left = readingsOf(list, "left");
  if (left === undefined) {
    const isFound = readingsOf(list, "found")?.columns.includes(firstColumn) ?? false;
    if (isFound || firstColumn === list.columns.get("found")) return "found";
    return list.columns.has("airflow") ? "now" : "left";
  }
  return left.columns.includes(firstColumn) ? "left" : "found";
}

/** The row of a list; what keeps it from taking readings; nothing where the selection is in no list's row. */
function rowPlace(lists: readonly OutletList[], selected: CellRange): SheetPlace | null {
  const { firstRow: row } = selected;
  const list = listAt(lists, { row, column: selected.firstColumn });
  if (list === undefined) return null;
  const state = stateOf(list, selected);
  const rows = [...rowsOf(list)];
  const calculates = (one: number) => hasRowFormula(list, one, AIRFLOW_KEYS[state]);
  const isCalculated = calculates(row);
  const filled = rows.find((one) => one.row === row);
  // In a sheet of one's own every airflow may be typed, as of a hood, or there may be no column for one.
  const isTyped = list.foundBy === "mapping" && !rows.some((one) => one.is === "outlet" && calculates(one.row));
  if (!isCalculated && filled === undefined) return null;
  const where = `Row ${row} of sheet “${list.sheet}”`;
  if (filled !== undefined && filled.is !== "outlet") {
    return { kind: "none", reason: `${where} is not an outlet. Select the row of one, or an empty cell.` };
  }
  if (readingsOf(list, state) === undefined && !(isTyped && list.columns.has(AIRFLOW_KEYS[state]))) {
    return { kind: "none", reason: `${where} has no cells for readings. Select a row that has, or an empty cell.` };
  }
  if (!isCalculated && !isTyped) {
    const reason = `${where} has no formula for its airflow. Fill the formulas down from the row above, then put it there.`;
    return { kind: "none", reason };
  }
  return { kind: "row", list, row, tag: shownText(rowCell(list, row, "outlet")), state, isTyped };
}

/** Finds out where the selection would put a measurement: a row of a list, a traverse sheet, an empty cell. */
export async function findPlace(host: InteractiveHost): Promise<SheetPlace> {
  const selection = await host.selection();
  const selected = parseRange(selection?.range ?? "");
  if (selection === null || selected === undefined) {
    return { kind: "none", reason: "No cells are selected. Select one cell in the sheet." };
  }
  const { sheet } = selection;
  const workbook = await hostSource(
    host,
    (await host.sheets()).filter(({ name }) => name === sheet),
  );
  const [source] = workbook.sheets;
  if (source === undefined) return { kind: "none", reason: `There is no sheet “${sheet}”. Select a cell again.` };
  if (isTraverseSheet(source)) return { kind: "traverse sheet", sheet };
  const inList = rowPlace(findLists(workbook).value, selected);
  if (inList !== null) return inList;
  const { firstRow: row, firstColumn: column } = selected;
  if (source.valueAt(row, column) === null && !source.hasFormula(row, column))
    return { kind: "empty cell", sheet, row, column };
  const reason = `${shownBlock(selection)} is in use, and in no list that Vanesheet can fill. Pick an outlet row or an empty cell.`;
  return { kind: "none", reason };
}
