import type { UnitSystemName } from "../../core/index.js";
import { type Finding, type FindingKind, placeOf, sentencesOf } from "../finding.js";
import type { WorkbookHost } from "../host.js";
import { findLists, readList } from "../lists/index.js";
import { hostSource } from "../source/index.js";
import type { OutletRow } from "./outlet-row.js";
import { outletRow } from "./outlet-row-of.js";

/** The outlets of a workbook and what could not be read of them. */
export interface OutletsOfWorkbook {
  readonly value: readonly OutletRow[];
  /** The sheets of the lists that have no outlet yet, each once. */
  readonly emptyLists: readonly string[];
  /** Each names its cell and says what to do. */
  readonly findings: readonly string[];
  /** What was read and asks for nothing: rows that are totals, and text below the list. */
  readonly remarks: readonly string[];
}

/** What balancing does not ask. A row that adds others up is in order. */
const OF_NO_MATTER: ReadonlySet<FindingKind> = new Set(["date", "unknown-kind", "units", "sum-row"]);

/** Gives outlets that share a tag in one list their row as well, so that every name is one outlet. */
function withOwnNames(outlets: readonly OutletRow[]): readonly OutletRow[] {
  const count = new Map<string, number>();
  const key = ({ sheet, name }: OutletRow) => `${sheet}\n${name}`;
  for (const outlet of outlets) count.set(key(outlet), (count.get(key(outlet)) ?? 0) + 1);
  return outlets.map((outlet) =>
    (count.get(key(outlet)) ?? 0) > 1 ? { ...outlet, name: `${outlet.name} (row ${outlet.row})` } : outlet,
  );
}

/** Nothing is lost by it, and nobody has anything to do. */
const isRemark = ({ leftOut, action }: Finding) => leftOut === "nothing" && action === "";

const inWords = (finding: Finding) => `${placeOf(finding)}: ${sentencesOf(finding)}`;

/**
 * Reads the outlets of a workbook, from every list of outlets in it.
 *
 * @param units - In which the job is measured
 */
export async function readOutletLists(host: WorkbookHost, units: UnitSystemName): Promise<OutletsOfWorkbook> {
  const found = findLists(await hostSource(host));
  const read = found.value.map((list) => readList(list, units));
  const outlets = read.flatMap((list) => list.outlets);
  const findings = [
    ...found.findings,
    ...read.flatMap((list) => list.findings),
    ...outlets.flatMap((outlet) => outlet.findings),
  ].filter(({ kind, leftOut }) => !OF_NO_MATTER.has(kind) && !(kind === "missing-column" && leftOut === "nothing"));
  const empty = read.flatMap((list, index) => (list.outlets.length > 0 ? [] : (found.value[index]?.sheet ?? [])));
  return {
    value: withOwnNames(outlets.map((outlet) => outletRow(outlet, units))),
    emptyLists: [...new Set(empty)],
    findings: findings.filter((finding) => !isRemark(finding)).map(inWords),
    remarks: findings.filter(isRemark).map(inWords),
  };
}
