import { formatRange, readSheet, type Workbook } from "../../xlsx/index.js";
import type { TableInfo } from "../host.js";

/** The tables of a workbook file, as a host tells of them. */
export function tablesOf(workbook: Workbook): readonly TableInfo[] {
  return workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name: sheet }) =>
      readSheet(workbook, sheet).tables.map(({ name, range, headerRows, totalsRows, columns }) => ({
        name,
        sheet,
        range: formatRange(range),
        headerRows,
        totalsRows,
        columns: columns.map((column) => column.name),
      })),
    );
}
