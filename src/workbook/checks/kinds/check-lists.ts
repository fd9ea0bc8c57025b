import { parseRange } from "../../../xlsx/index.js";
import type { CheckKind, Finding } from "../../finding.js";
import { hiddenOutlets, type ListRow, type OutletList, rowsOf } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";

function sheetNumber({ sheets }: WorkbookIndex, name: string): number {
  return sheets.findIndex((sheet) => sheet.name === name);
}

/** What the finder of lists says of their headings. */
const OF_HEADINGS: readonly CheckKind[] = ["list-not-read", "column-gone", "heading-not-known"];

function drafted(index: WorkbookIndex, { severity, sheet, cell, problem, action }: Finding, kind: CheckKind): Draft {
  const [row = "1"] = cell.split(":");
  return {
    kind,
    severity,
    sheet: sheetNumber(index, sheet),
    range: parseRange(cell) ?? oneCell(Number(row) || 1, 1),
    problem,
    action,
  };
}

/** A row of totals that the sheet's own totals take for an outlet, or that holds readings. */
function totalAmong({ columns, table }: OutletList, row: ListRow, sheet: number): readonly Draft[] {
  const { range, totalsRows } = table ?? { range: undefined, totalsRows: 0 };
  const isInTable = range !== undefined && row.row > range.firstRow && row.row <= range.lastRow - totalsRows;
  if (row.is !== "total" || !(isInTable || row.hasReading)) return [];
  return [
    {
      kind: "total-among-outlets",
      severity: "warning",
      sheet,
      range: oneCell(row.row, columns.get("outlet") ?? 1),
      problem: row.hasReading
        ? `The row is taken for a total (“${row.text}”), but holds readings, and is not counted as an outlet.`
        : `The row is a total (“${row.text}”) among the outlets: the totals of the sheet count it as one more outlet.`,
      action: row.hasReading ? "Give the outlet another tag." : "Move it below the table.",
    },
  ];
}

/** Sheets that look like a list of outlets and cannot be read as one, and rows of a list that are no outlets. */
export function checkLists(index: WorkbookIndex): readonly Draft[] {
  const { value: lists, findings } = index.lists;
  return [
    ...OF_HEADINGS.flatMap((kind) =>
      findings.filter((finding) => finding.kind === kind).map((finding) => drafted(index, finding, kind)),
    ),
    ...lists.flatMap((list) => {
      const rows = [...rowsOf(list)];
      return [
        ...rows.flatMap((row) => totalAmong(list, row, sheetNumber(index, list.sheet))),
        ...hiddenOutlets(list, rows).map((finding) => drafted(index, finding, "hidden-outlets")),
      ];
    }),
  ];
}
