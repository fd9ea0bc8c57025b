import { AIRFLOW_KEYS, hasRowFormula, type ListColumnKey, type ListedOutlet } from "../../lists/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { counted, type Draft, grouped, oneCell } from "../support/draft.js";
import { LEAST_FORMULAS_OF_A_COLUMN } from "../thresholds.js";

const RESULTS: readonly ListColumnKey[] = [...Object.values(AIRFLOW_KEYS), "percent", "verdict"];

/** One tag twice: whoever reads the list cannot tell the two outlets apart. */
function repeatedTags({ sheet, list, outlets }: CheckedList): readonly Draft[] {
  const column = list.columns.get("outlet");
  if (column === undefined) return [];
  const tagged = outlets.filter(({ tag }) => tag !== "");
  return [...grouped(tagged, ({ jobId, tag }) => `${jobId} ${tag.toLowerCase()}`).values()].flatMap(
    ([first, ...others]) =>
      others.map(
        ({ row, tag }): Draft => ({
          kind: "repeated-tag",
          severity: "warning",
          sheet,
          range: oneCell(row.row, column),
          problem: `Outlet ${tag} is already in row ${first?.row.row}.`,
          action: "Give each outlet a tag of its own, or delete the row that is there twice.",
        }),
      ),
  );
}

/** Columns of results that most rows of a list calculate. */
function calculatedColumns({ list, rows }: CheckedList): readonly ListColumnKey[] {
  return RESULTS.filter(
    (key) => rows.filter(({ row }) => hasRowFormula(list, row, key)).length >= LEAST_FORMULAS_OF_A_COLUMN,
  );
}

const hasAirflow = ({ now, found, left }: ListedOutlet) => [now, found, left].some(({ from }) => from === "cell");

/** Rows that hold readings and none of the formulas that the others have, as an inserted row. */
function bareRows(checked: CheckedList): readonly Draft[] {
  const { sheet, list, outlets } = checked;
  const calculated = calculatedColumns(checked);
  const [key] = calculated;
  const column = key === undefined ? undefined : list.columns.get(key);
  if (column === undefined) return [];
  return outlets.flatMap((outlet): readonly Draft[] => {
    const { row } = outlet;
    const hasFormula = calculated.some((one) => hasRowFormula(list, row.row, one));
    if (row.isBelowTable || hasFormula || hasAirflow(outlet) || !row.hasReading) return [];
    return [
      {
        kind: "row-without-formulas",
        severity: "error",
        sheet,
        range: oneCell(row.row, column),
        problem: "The row has readings and none of the formulas of the other rows, so it has no airflow.",
        action: "Copy the formulas from the row above, or let the pane fill them in.",
      },
    ];
  });
}

/** Rows that lie under the table: its formulas, and what other sheets read of it, end above them. */
function rowsBelow({ sheet, list, outlets }: CheckedList): readonly Draft[] {
  const below = outlets.filter(({ row }) => row.isBelowTable);
  const [first, last] = [below[0], below.at(-1)];
  const column = list.columns.get("outlet");
  if (first === undefined || last === undefined || column === undefined) return [];
  return [
    {
      kind: "rows-below-table",
      severity: "error",
      sheet,
      range: { firstRow: first.row.row, firstColumn: column, lastRow: last.row.row, lastColumn: column },
      problem: `${counted(below.length, "outlet")} below the table, which ends in row ${list.table?.range.lastRow}: its formulas and the totals of other sheets leave them out.`,
      action: "Let the pane extend the table, or insert rows above its last row and move these outlets there.",
    },
  ];
}

/** An airflow as left without one as found: nothing can be said of the change. */
function leftWithoutFound({ sheet, list, outlets }: CheckedList): readonly Draft[] {
  const column = list.columns.get("found");
  // A job summary may take over one airflow alone.
  if (column === undefined || list.form !== "before and after") return [];
  return outlets
    .filter(({ left, found }) => left.flow !== null && found.flow === null)
    .map(
      ({ row }): Draft => ({
        kind: "left-without-found",
        severity: "warning",
        isUnfinished: true,
        sheet,
        range: oneCell(row.row, column),
        problem: "The outlet has an airflow as left and none as found, so there is no change to state.",
        action: "Enter the readings as found. If nothing was adjusted, enter the readings as found alone.",
      }),
    );
}

/** What is wrong with rows of a list as rows. */
export function checkRows(_index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap((list) => [
    ...repeatedTags(list),
    ...bareRows(list),
    ...rowsBelow(list),
    ...leftWithoutFound(list),
  ]);
}
