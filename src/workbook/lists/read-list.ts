import type { UnitSystemName } from "../../core/index.js";
import type { ListIssue } from "./list-issue.js";
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
  readonly issues: readonly ListIssue[];
}

function rowIssue({ sheet }: OutletList, { row, is, text, hasReading }: ListRow): ListIssue {
  const place = `${row}:${row}`;
  if (is === "remark") {
    const message = `Row ${row} says “${quoted(text)}” and nothing else, below the outlets. It is not counted as one.`;
    return { code: "remark", leftOut: "note", sheet, place, message };
  }
  const named = text === "" ? "" : ` (“${quoted(text)}”)`;
  const message = hasReading
    ? `Row ${row} is taken for a total${named}, but holds readings. It is not counted; give the outlet another tag.`
    : `Row ${row} is a total${named}. It is not counted as an outlet.`;
  return { code: "total-row", leftOut: hasReading ? "outlet" : "note", sheet, place, message };
}

/**
 * Reads every filled row of a list.
 *
 * @param units - What the job states; null where it does not say
 */
export function readList(list: OutletList, units: UnitSystemName | null): ReadList {
  const outlets: ListedOutlet[] = [];
  const issues: ListIssue[] = [];
  for (const row of rowsOf(list)) {
    if (row.is === "outlet") outlets.push(readListedOutlet(list, row, units));
    else issues.push(rowIssue(list, row));
  }
  return { list, outlets, issues };
}
