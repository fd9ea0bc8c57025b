import { type ArchiveCodec, openWorkbook, type Workbook, WorkbookFileError } from "../../xlsx/index.js";
import { type JobIssue, jobOf } from "../job/index.js";
import { findLists, readList, readTraverse, traversesOn } from "../lists/index.js";
import { type CalculatedResults, fileSource, type WorkbookSource } from "../source/index.js";
import type { RollUpIssue } from "./issue.js";
import { oneOutletOnce } from "./one-outlet-once.js";
import { type InFile, inFile, outletOfList, outletOfTraverse } from "./outlet-of-list.js";
import type { OutletRecord } from "./outlet-record.js";

/** What one workbook gave: its outlets, none where it was left out, and everything found wanting. */
export interface OutletsRead {
  readonly value: readonly OutletRecord[];
  readonly issues: readonly RollUpIssue[];
}

/** Opens a workbook; one that cannot be opened is a finding. */
export function openJob(
  bytes: Uint8Array,
  file: string,
  codec?: ArchiveCodec,
): { readonly value: Workbook | null; readonly issues: readonly RollUpIssue[] } {
  try {
    return { value: openWorkbook(bytes, file, codec), issues: [] };
  } catch (cause) {
    return { value: null, issues: [notOpened(file, cause)] };
  }
}

/** Says why a file was left out; anything but a clear reason is a fault of ours and thrown on. */
export function notOpened(file: string, cause: unknown): RollUpIssue {
  if (!(cause instanceof WorkbookFileError)) throw cause;
  const name = file.split(/[\\/]/).at(-1) ?? file;
  const within = cause.place.slice(cause.place.lastIndexOf(name) + name.length).replace(/^, /, "");
  const message = `It ${cause.problem}. ${cause.advice}`;
  return { code: "not-opened", leftOut: "file", file, place: cause.place.includes(name) ? within : "", message };
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
    const { value, issues } = outletsOf(fileSource(workbook, calculated));
    return { value, issues: issues.map((issue) => ({ ...issue, file })) };
  } catch (cause) {
    return { value: [], issues: [notOpened(file, cause)] };
  }
}

const NO_LIST =
  "It holds no list of outlets: no row of headings with an outlet, a design and an airflow. If it is a job, give its columns such headings, or bring its outlets into a template.";

function outletsOf(source: WorkbookSource): {
  readonly value: readonly OutletRecord[];
  readonly issues: readonly InFile[];
} {
  const found = findLists(source.sheets);
  const traverses = traversesOn(source.sheets);
  const unread = found.issues.map(inFile);
  if (found.value.length === 0 && traverses.length === 0) {
    const issues: readonly InFile[] =
      unread.length === 0 ? [{ code: "no-outlets-sheet", leftOut: "file", place: "", message: NO_LIST }] : unread;
    return { value: [], issues: issues.map((issue) => ({ ...issue, leftOut: "file" })) };
  }
  const job = jobOf(source);
  const workbook = { job, usesDate1904: source.usesDate1904 };
  const read = found.value.map((list) => readList(list, job?.statedUnits ?? null));
  const outlets = read.flatMap(({ list, outlets: ofList }) =>
    ofList.map((outlet) => ({ ...outletOfList(outlet, workbook), form: list.form, tag: outlet.tag })),
  );
  const ducts = traverses.flatMap((traverse) => {
    const duct = readTraverse(traverse);
    return duct === undefined
      ? []
      : [{ ...outletOfTraverse(duct, workbook), form: "duct traverse" as const, tag: duct.tag }];
  });
  const named = [...outlets, ...ducts];
  const once = oneOutletOnce(named);
  const issues = [
    ...unread,
    ...(job?.issues.map(jobIssue) ?? []),
    ...read.flatMap((list) => list.issues.map(inFile)),
    ...named.flatMap((outlet) => outlet.issues),
    ...once.issues,
  ];
  if (once.value.length > 0) return { value: once.value, issues };
  const sheet = found.value[0]?.sheet ?? traverses[0]?.sheet ?? "";
  const message = `No outlet is listed on “${sheet}”. Fill it, or leave the file out.`;
  return { value: [], issues: [...issues, { code: "no-outlets", leftOut: "file", place: sheet, message }] };
}

function jobIssue({ at, message }: JobIssue): InFile {
  return { code: "job-detail", leftOut: "note", place: `${at.sheet}!${at.range}`, message };
}
