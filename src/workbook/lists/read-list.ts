import type { UnitSystemName } from "../../core/index.js";
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

function rowFinding({ sheet }: OutletList, { row, is, text, hasReading }: ListRow): Finding {
  const at = [sheet, `${row}:${row}`] as const;
  if (is === "remark") {
    const problem = `Row ${row} says “${quoted(text)}” and nothing else, below the outlets. It is not counted as one.`;
    return findingAt(at, "remark", "nothing", problem, "");
  }
  const named = text === "" ? "" : ` (“${quoted(text)}”)`;
  if (!hasReading) {
    return findingAt(at, "total-row", "nothing", `Row ${row} is a total${named}. It is not counted as an outlet.`, "");
  }
  const problem = `Row ${row} is taken for a total${named}, but holds readings. It is not counted.`;
  return findingAt(at, "total-row", "outlet", problem, "Give the outlet another tag.");
}

/**
 * Reads every filled row of a list.
 *
 * @param units - What the job states; null where it does not say
 */
export function readList(list: OutletList, units: UnitSystemName | null): ReadList {
  const outlets: ListedOutlet[] = [];
  const findings: Finding[] = [];
  for (const row of rowsOf(list)) {
    if (row.is === "outlet") outlets.push(readListedOutlet(list, row, units));
    else findings.push(rowFinding(list, row));
  }
  return { list, outlets, findings };
}
