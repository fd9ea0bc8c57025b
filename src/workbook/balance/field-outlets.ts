import type { UnitSystemName } from "../../core/index.js";
import { formatAddress } from "../../xlsx/address.js";
import { placeOf, sentencesOf } from "../finding.js";
import type { BlockAddress, WorkbookHost } from "../host.js";
import { findLists, type ListedOutlet, readingsOf, readList } from "../lists/index.js";
import { hostSource } from "../source/index.js";
import type { OutletRow } from "./outlet-row.js";
import { outletRow } from "./outlet-row-of.js";

/** One cell of an outlet that takes a reading, in the order in which they are read. */
export interface FieldEntry {
  readonly address: BlockAddress;
  /** The heading of its column. */
  readonly label: string;
  readonly holds: "velocity" | "airflow" | "seconds";
  /** As it stands there, in the units of the job; null where nothing does. */
  readonly value: number | string | boolean | null;
  /** Times what is read gives what the cell holds. */
  readonly scale: number;
}

/** An outlet as it is worked through on site. */
export interface FieldOutlet {
  readonly outlet: OutletRow;
  readonly entries: readonly FieldEntry[];
  /** Of design, as its row says; null where that says none. */
  readonly percent: number | null;
  /** As its row says; "" for none. */
  readonly verdict: string;
  /** The cell for a note; null where the list has none. */
  readonly noteCell: BlockAddress | null;
  readonly note: string;
  /** What is wrong with the row, each in words. */
  readonly findings: readonly string[];
}

function headingAt({ source, headerRow }: ListedOutlet["list"], column: number): string {
  return String(source.valueAt(headerRow, column) ?? "").trim();
}

/** Sweeps come with their seconds; everything else is what balancing asks for as well. */
function entriesOf(listed: ListedOutlet, outlet: OutletRow): readonly FieldEntry[] {
  const { list, row } = listed;
  const sweeps = readingsOf(list, "left") ?? readingsOf(list, "now");
  if (sweeps?.holds !== "sweep") {
    const holds = outlet.entry === "velocities" ? "velocity" : "airflow";
    return outlet.entryCells.map((address, index) => {
      const column = /^[A-Z]+/.exec(address.range)?.[0] ?? "";
      const number = [...column].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0);
      const [label, value] = [headingAt(list, number), outlet.entered[index] ?? null];
      return { address, label, holds, value, scale: outlet.entryScale };
    });
  }
  const entry = (column: number, holds: FieldEntry["holds"]): FieldEntry => {
    const value = list.source.valueAt(row.row, column);
    return {
      address: { sheet: list.sheet, range: formatAddress(row.row, column) },
      label: headingAt(list, column),
      holds,
      value: typeof value === "object" ? null : value,
      scale: 1,
    };
  };
  return sweeps.columns.flatMap((column, index) => {
    const seconds = sweeps.seconds[index];
    return [entry(column, "velocity"), ...(seconds === undefined ? [] : [entry(seconds, "seconds")])];
  });
}

function fieldOutlet(listed: ListedOutlet, units: UnitSystemName): FieldOutlet {
  const outlet = outletRow(listed, units);
  const column = listed.list.columns.get("note");
  return {
    outlet,
    entries: entriesOf(listed, outlet),
    percent: listed.percent.kind === "number" ? listed.percent.value : null,
    verdict: listed.verdict,
    noteCell: column === undefined ? null : { sheet: outlet.sheet, range: formatAddress(outlet.row, column) },
    note: listed.note,
    findings: listed.findings.map((finding) => `${placeOf(finding)}: ${sentencesOf(finding)}`),
  };
}

/**
 * Reads the outlets of a workbook as they are worked through on site, from every list of outlets in it.
 *
 * @param units - In which the job is measured
 */
export async function readFieldOutlets(host: WorkbookHost, units: UnitSystemName): Promise<readonly FieldOutlet[]> {
  const lists = findLists(await hostSource(host)).value;
  return lists.flatMap((list) => readList(list, units).outlets.map((listed) => fieldOutlet(listed, units)));
}
