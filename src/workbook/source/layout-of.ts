import { formatRange, rowStateAt, type Sheet } from "../../xlsx/index.js";
import type { SheetLayout } from "../host.js";

/** The merged blocks and hidden rows of a sheet of a file, as a host tells of them. */
export function layoutOf(sheet: Sheet): SheetLayout {
  const { rowNumbers, rowCount } = sheet.cells;
  const rows = Array.from(rowNumbers.subarray(0, rowCount));
  return {
    sheet: sheet.name,
    mergedRanges: sheet.mergedRanges.map(formatRange),
    hiddenRows: rows.filter((row) => rowStateAt(sheet, row) !== "shown"),
  };
}
