import { type Finding, findingAt } from "../finding.js";
import type { ListForm } from "../lists/index.js";
import type { OutletRecord } from "./outlet-record.js";

/** An outlet and the kind of list that names it; a traverse has none. */
export interface NamedOutlet {
  readonly value: OutletRecord;
  readonly form: ListForm | "duct traverse";
  /** "" where the row has none: then it is like no other. */
  readonly tag: string;
}

/** Which list tells most of an outlet: what the office keeps, then both states, then one. */
const FIRST: readonly NamedOutlet["form"][] = [
  "job summary",
  "before and after",
  "face sweep",
  "room balance",
  "own",
  "duct traverse",
];

/** Airflows that differ by less are the same: a summary shows one digit. Own choice. */
const SAME_PERCENT = 0.5;

const same = (one: string, other: string) => one.toLowerCase() === other.toLowerCase();
const mayBeSame = (one: string, other: string) => one === "" || other === "" || same(one, other);

/** Whether two rows name the same outlet of one job. */
function isSameOutlet({ value: one }: NamedOutlet, { value: other }: NamedOutlet): boolean {
  return (
    same(one.jobNumber, other.jobNumber) &&
    mayBeSame(one.system, other.system) &&
    mayBeSame(one.room, other.room) &&
    (one.kind === "duct") === (other.kind === "duct")
  );
}

/** Whether one row repeats the other, figure by figure: a copied sheet. */
function isCopy({ value: one }: NamedOutlet, { value: other }: NamedOutlet): boolean {
  const keys = ["designCfm", "beforeCfm", "afterCfm", "measuredCfm", "room", "status"] as const;
  return one.sheet !== other.sheet && one.measuredCfm !== null && keys.every((key) => one[key] === other[key]);
}

/** Puts before what counts rather: a row that was measured, then the list that tells more. */
function rather(one: NamedOutlet, other: NamedOutlet): boolean {
  const isRead = ({ value }: NamedOutlet) => value.measuredCfm !== null || value.status === "faulty";
  if (isRead(one) !== isRead(other)) return isRead(one);
  return FIRST.indexOf(one.form) < FIRST.indexOf(other.form);
}

/** An outlet that does not count here, and the row that counts for it. */
interface Elsewhere {
  readonly outlet: OutletRecord;
  readonly counted: OutletRecord;
}

function differs({ outlet, counted }: Elsewhere): boolean {
  const [here, there] = [outlet.measuredCfm, counted.measuredCfm];
  return here !== null && there !== null && Math.abs(here - there) > (SAME_PERCENT / 100) * Math.abs(there);
}

/** Rows as ranges: `9:12,15:15`. */
export function spelledRows(rows: readonly number[]): string {
  const ranges: [number, number][] = [];
  for (const row of [...rows].sort((one, other) => one - other)) {
    const last = ranges.at(-1);
    if (last !== undefined && last[1] === row - 1) last[1] = row;
    else ranges.push([row, row]);
  }
  return ranges.map(([from, to]) => `${from}:${to}`).join(",");
}

function elsewhereFindings(elsewhere: readonly Elsewhere[]): readonly Finding[] {
  const bySheets = new Map<string, Elsewhere[]>();
  for (const one of elsewhere) {
    const key = `${one.outlet.sheet}\n${one.counted.sheet}`;
    bySheets.set(key, [...(bySheets.get(key) ?? []), one]);
  }
  return [...bySheets.values()].flatMap((ofSheets): readonly Finding[] => {
    const [{ outlet, counted }] = ofSheets as [Elsewhere];
    const rows = spelledRows(ofSheets.map((one) => one.outlet.row));
    const count = ofSheets.length === 1 ? "This outlet is" : `These ${ofSheets.length} outlets are`;
    const problem = `${count} on “${counted.sheet}” too and counted there, once.`;
    const unequal = ofSheets
      .filter(differs)
      .map((one) =>
        findingAt(
          rowOf(one.outlet),
          "listed-twice",
          "nothing",
          `${one.outlet.outlet} has ${shown(one.outlet)} cfm here and ${shown(one.counted)} cfm on “${one.counted.sheet}”, which counts.`,
          "Check which one is right.",
        ),
      );
    return [findingAt([outlet.sheet, rows], "listed-twice", "nothing", problem, ""), ...unequal];
  });
}

const rowOf = ({ sheet, row }: OutletRecord) => [sheet, `${row}:${row}`] as const;
const shown = ({ measuredCfm }: OutletRecord) => (measuredCfm ?? 0).toFixed(1);

function repeated(outlet: OutletRecord, earlier: OutletRecord): Finding {
  const where = earlier.sheet === outlet.sheet ? `row ${earlier.row}` : `row ${earlier.row} of “${earlier.sheet}”`;
  const problem = `Outlet ${outlet.outlet} is in ${where} already; both count.`;
  return findingAt(rowOf(outlet), "repeated-tag", "nothing", problem, "If one was copied, delete it.");
}

/**
 * Counts every outlet once. An outlet that several kinds of lists name counts by the one that tells most of it, and a
 * row that repeats another figure by figure on a copied sheet does not count again; both are said. Rows of one list, or
 * of two lists of one kind, that share a tag and differ both count, which is said too: perhaps one was copied.
 */
export function oneOutletOnce(outlets: readonly NamedOutlet[]): {
  readonly value: readonly OutletRecord[];
  readonly findings: readonly Finding[];
} {
  const byTag = new Map<string, NamedOutlet[]>();
  const elsewhere: Elsewhere[] = [];
  const findings: Finding[] = [];
  const dropped = new Set<OutletRecord>();
  const inOrder = [...outlets].sort((one, other) => (rather(one, other) ? -1 : rather(other, one) ? 1 : 0));
  for (const one of inOrder) {
    const tag = one.tag.toLowerCase();
    if (tag === "") continue;
    const known = byTag.get(tag) ?? [];
    byTag.set(tag, [...known, one]);
    const earlier = known.filter((other) => isSameOutlet(one, other));
    const better = earlier.find((other) => other.form !== one.form || isCopy(one, other));
    if (better !== undefined) {
      elsewhere.push({ outlet: one.value, counted: better.value });
      dropped.add(one.value);
    } else if (earlier[0] !== undefined) findings.push(repeated(one.value, earlier[0].value));
  }
  return {
    value: outlets.flatMap(({ value }) => (dropped.has(value) ? [] : [value])),
    findings: [...elsewhereFindings(elsewhere), ...findings],
  };
}
