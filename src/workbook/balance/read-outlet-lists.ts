import type { UnitSystemName } from "../../core/index.js";
import type { WorkbookHost } from "../host.js";
import { findOutletLists } from "./find-outlet-lists.js";
import type { OutletRow } from "./outlet-row.js";
import { readOutletRow } from "./read-outlet-row.js";

/** The outlets of a workbook and what could not be read of them. */
export interface OutletsOfWorkbook {
  readonly value: readonly OutletRow[];
  /** Each names its cell and says what to do. */
  readonly issues: readonly string[];
}

/** Gives outlets that share a tag in one list their row as well, so that every name is one outlet. */
function withOwnNames(outlets: readonly OutletRow[]): readonly OutletRow[] {
  const count = new Map<string, number>();
  const key = ({ sheet, name }: OutletRow) => `${sheet}\n${name}`;
  for (const outlet of outlets) count.set(key(outlet), (count.get(key(outlet)) ?? 0) + 1);
  return outlets.map((outlet) =>
    (count.get(key(outlet)) ?? 0) > 1 ? { ...outlet, name: `${outlet.name} (row ${outlet.row})` } : outlet,
  );
}

/**
 * Reads the outlets of a workbook: those of its balances, of its comparisons before and after, and of its job summary.
 *
 * @param units - In which the job is measured
 */
export async function readOutletLists(host: WorkbookHost, units: UnitSystemName): Promise<OutletsOfWorkbook> {
  const lists = (await findOutletLists(host, await host.sheets())).flatMap(({ rows, ...list }) =>
    rows === null ? [] : [{ ...list, rows }],
  );
  const blocks = await host.read(lists.map(({ rows }) => rows));
  const read = lists.flatMap((list, index) => {
    const block = blocks[index];
    return block === undefined ? [] : block.values.map((_, row) => readOutletRow(list, block, row, units));
  });
  const outlets = read.flatMap(({ value }) => (value === null ? [] : [value]));
  return { value: withOwnNames(outlets), issues: read.flatMap(({ issues }) => issues) };
}
