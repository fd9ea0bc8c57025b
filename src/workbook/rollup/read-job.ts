import {
  type ArchiveCodec,
  formatAddress,
  isoDate,
  openWorkbook,
  type Workbook,
  WorkbookFileError,
} from "../../xlsx/index.js";
import { EXPIRED_ACTION, expiredSentence, listedMeters } from "../checks/listed/listed-meters.js";
import { type Finding, findingAt, findingOf } from "../finding.js";
import { jobOf, type StatedJob } from "../job/index.js";
import { findLists, readList, readTraverse, traversesOn } from "../lists/index.js";
import { type CalculatedResults, fileSource, type WorkbookSource } from "../source/index.js";
import { ofWorkbook } from "./of-workbook.js";
import { oneOutletOnce } from "./one-outlet-once.js";
import { outletOfList, outletOfTraverse } from "./outlet-of-list.js";
import type { OutletRecord } from "./outlet-record.js";

/** What one workbook gave: its outlets, none where it was left out, and everything found wanting. */
export interface OutletsRead {
  readonly value: readonly OutletRecord[];
  readonly findings: readonly Finding[];
}

/** Opens a workbook; one that cannot be opened is a finding. */
export function openJob(
  bytes: Uint8Array,
  file: string,
  codec?: ArchiveCodec,
): { readonly value: Workbook | null; readonly findings: readonly Finding[] } {
  try {
    return { value: openWorkbook(bytes, file, codec), findings: [] };
  } catch (cause) {
    return { value: null, findings: [notOpened(file, cause)] };
  }
}

/** Says why a file was left out; anything but a clear reason is a fault of ours and thrown on. */
export function notOpened(file: string, cause: unknown): Finding {
  if (!(cause instanceof WorkbookFileError)) throw cause;
  const name = file.split(/[\\/]/).at(-1) ?? file;
  const within = cause.place.slice(cause.place.lastIndexOf(name) + name.length).replace(/^, /, "");
  const part = cause.place.includes(name) ? within : "";
  return { ...findingOf(file, "not-opened", "workbook", `It ${cause.problem}.`, cause.advice), sheet: part };
}

/**
 * Reads the outlets of one job's workbook: those of every list of outlets in it, each outlet once, and its traverses.
 *
 * @param workbook - As opened
 * @param calculated - Results for formulas that store none, as far as the caller could calculate them
 * @returns Every outlet, and what was found wanting; never stops at the first
 */
export function readOutlets(workbook: Workbook, calculated: CalculatedResults): OutletsRead {
  const file = workbook.fileName;
  try {
    const { value, findings } = outletsOf(fileSource(workbook, calculated));
    return { value, findings: findings.map((finding) => ({ ...finding, file })) };
  } catch (cause) {
    return { value: [], findings: [notOpened(file, cause)] };
  }
}

const NO_LIST = "It holds no list of outlets: no row of headings with an outlet, a design and an airflow.";
const GIVE_LIST = "If it is a job, say what its columns hold: vanesheet columns FILE, or Your own sheet in the pane.";

/** The meters of a job's own table that were past due on the day measured; that of the job is told by the roll-up. */
function expiredMeters({ sheets, usesDate1904 }: WorkbookSource, { details }: StatedJob): readonly Finding[] {
  const day = details.dateSerial;
  if (day === null) return [];
  const named = {
    sheets,
    valueAt: (sheet: number, row: number, column: number) => sheets[sheet]?.valueAt(row, column) ?? null,
  };
  const ofJob = [details.instrument, details.instrumentSerial].map((word) => word?.toLowerCase());
  return listedMeters(named)
    .filter(({ dueSerial }) => dueSerial < day)
    .filter(({ name, serial }) => !ofJob.includes(serial === "" ? name.toLowerCase() : serial.toLowerCase()))
    .map(({ sheet, row, column, name, dueSerial }) => {
      const place = [sheets[sheet]?.name ?? "", formatAddress(row, column)] as const;
      const judged = `on the day measured, ${isoDate(day, usesDate1904) ?? day}`;
      const problem = expiredSentence(name, dueSerial, judged, usesDate1904);
      return findingAt(place, "calibration", "nothing", problem, EXPIRED_ACTION);
    });
}

function outletsOf(source: WorkbookSource): {
  readonly value: readonly OutletRecord[];
  readonly findings: readonly Finding[];
} {
  const found = findLists(source);
  const traverses = traversesOn(source.sheets);
  const unread = found.findings;
  if (found.value.length === 0 && traverses.length === 0) {
    const none = findingOf("", "no-outlets-sheet", "workbook", NO_LIST, GIVE_LIST);
    const findings = (unread.length === 0 ? [none] : unread).map(
      (finding): Finding => ({ ...finding, severity: "error", leftOut: "workbook" }),
    );
    return { value: [], findings };
  }
  const job = jobOf(source);
  const workbook = ofWorkbook(job, source.usesDate1904);
  const read = found.value.map((list) => readList(list, job?.statedUnits ?? null));
  const outlets = read.flatMap(({ list, outlets: ofList }) =>
    ofList.map((outlet) => {
      const { value, findings } = outletOfList(outlet, workbook);
      return { value, findings, form: list.form, tag: outlet.tag };
    }),
  );
  const ducts = traverses.flatMap((traverse) => {
    const duct = readTraverse(traverse);
    return duct === undefined
      ? []
      : [{ ...outletOfTraverse(duct, workbook), form: "duct traverse" as const, tag: duct.tag }];
  });
  const named = [...outlets, ...ducts];
  const meters = job === null ? [] : expiredMeters(source, job);
  const once = oneOutletOnce(named);
  const findings = [
    ...unread,
    ...(job?.findings ?? []),
    ...meters,
    ...read.flatMap((list) => list.findings),
    ...named.flatMap((outlet) => outlet.findings),
    ...once.findings,
  ];
  if (once.value.length > 0) return { value: once.value, findings };
  const sheet = found.value[0]?.sheet ?? traverses[0]?.sheet ?? "";
  const problem = `No outlet is listed on “${sheet}”.`;
  const none = findingAt([sheet, ""], "no-outlets", "workbook", problem, "Fill it, or leave the file out.");
  return { value: [], findings: [...findings, none] };
}
