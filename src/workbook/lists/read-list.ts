import type { UnitSystemName } from "../../core/index.js";
import { formatRange } from "../../xlsx/address.js";
import { type Finding, findingAt } from "../finding.js";
import { type ListRow, rowsOf } from "./list-rows.js";
import type { ListedOutlet } from "./listed-outlet.js";
import type { OutletList } from "./outlet-list.js";
import { readListedOutlet } from "./read-outlet.js";
import { quoted } from "./row-reader.js";

/** What a list holds: its outlets, and what is among its rows and no outlet. */
export interface ReadList {
  readonly list: OutletList;
  readonly outlets: readonly ListedOutlet[];
  /** Of rows that are no outlets; those of an outlet are with it. */
  readonly findings: readonly Finding[];
}

function rowFinding({ sheet }: OutletList, { row, is, text, hasReading, isSum }: ListRow): Finding {
  const at = [sheet, `${row}:${row}`] as const;
  if (is === "remark") {
    const problem = `Row ${row} says “${quoted(text)}” and nothing else, below the outlets. It is not counted as one.`;
    return findingAt(at, "remark", "nothing", problem, "");
  }
  const named = text === "" ? "" : ` (“${quoted(text)}”)`;
  if (!hasReading) {
    const kind = isSum ? "sum-row" : "total-row";
    return findingAt(at, kind, "nothing", `Row ${row} is a total${named}. It is not counted as an outlet.`, "");
  }
  const problem = `Row ${row} is taken for a total${named}, but holds readings. It is not counted.`;
  return findingAt(at, "total-row", "outlet", problem, "Give the outlet another tag.");
}

/** Rows as a person writes them: 7, 9 to 12. */
function rowsInWords(rows: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const row of rows) {
    const last = runs.at(-1);
    if (last?.[1] === row - 1) last[1] = row;
    else runs.push([row, row]);
  }
  return runs.map(([first, last]) => (first === last ? `${first}` : `${first} to ${last}`)).join(", ");
}

/** So many outlets are named one by one. */
const MOST_NAMED = 4;

/** Says which outlets are out of sight, by a filter or by hand: they count like any other. */
export function hiddenOutlets(
  { sheet, source, columns, firstColumn }: OutletList,
  rows: readonly ListRow[],
): readonly Finding[] {
  const outOfSight = rows.filter(({ is, row }) => is === "outlet" && source.isRowHidden(row));
  const hidden = outOfSight.map(({ row }) => row);
  const [first] = hidden;
  if (first === undefined) return [];
  const [outlets, are, count] =
    hidden.length === 1 ? ["1 outlet", "is", "counts"] : [`${hidden.length} outlets`, "are", "count"];
  const tags = outOfSight.slice(0, MOST_NAMED).map(({ text, row }) => (text === "" ? `row ${row}` : text));
  const named = `${tags.join(", ")}${outOfSight.length > MOST_NAMED ? ", …" : ""}`;
  const problem = `${outlets} ${are} hidden, by a filter or by hand (${named} in ${hidden.length === 1 ? "row" : "rows"} ${rowsInWords(hidden)}), and ${count} all the same.`;
  const action = "Show the rows, or know that a total of what is shown leaves them out.";
  const column = columns.get("outlet") ?? firstColumn;
  const range = { firstRow: first, firstColumn: column, lastRow: hidden.at(-1) ?? first, lastColumn: column };
  return [findingAt([sheet, formatRange(range)], "hidden-outlets", "nothing", problem, action)];
}

/**
 * Reads every filled row of a list.
 *
 * @param units - What the job states; null where it does not say
 */
export function readList(list: OutletList, units: UnitSystemName | null): ReadList {
  const outlets: ListedOutlet[] = [];
  const findings: Finding[] = [];
  const rows = [...rowsOf(list)];
  for (const row of rows) {
    if (row.is === "outlet") outlets.push(readListedOutlet(list, row, units));
    else findings.push(rowFinding(list, row));
  }
  return { list, outlets, findings: [...findings, ...hiddenOutlets(list, rows)] };
}
