import { parseRange } from "../../../xlsx/index.js";
import { type ListIssue, type ListRow, type OutletList, rowsOf } from "../../lists/index.js";
import type { FindingKind } from "../finding.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";

function sheetNumber({ sheets }: WorkbookIndex, name: string): number {
  return sheets.findIndex((sheet) => sheet.name === name);
}

/** The last sentence of a message says what to do. */
function drafted(index: WorkbookIndex, { sheet, place, message }: ListIssue, kind: FindingKind): Draft {
  const [row = "1"] = place.split(":");
  const end = message.lastIndexOf(". ") + 1;
  return {
    kind,
    severity: kind === "list-not-read" ? "error" : "warning",
    sheet: sheetNumber(index, sheet),
    range: parseRange(place) ?? oneCell(Number(row) || 1, 1),
    problem: message.slice(0, end).trim(),
    action: message.slice(end).trim(),
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
  const { value: lists, issues } = index.lists;
  return [
    ...issues.filter(({ leftOut }) => leftOut === "list").map((issue) => drafted(index, issue, "list-not-read")),
    ...issues
      .filter(({ leftOut, place }) => leftOut === "note" && place !== "")
      .map((issue) => drafted(index, issue, "heading-not-known")),
    ...lists.flatMap((list) =>
      [...rowsOf(list)].flatMap((row) => totalAmong(list, row, sheetNumber(index, list.sheet))),
    ),
  ];
}
