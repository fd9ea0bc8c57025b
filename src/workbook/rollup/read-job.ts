import { type ArchiveCodec, openWorkbook, type Workbook, WorkbookFileError } from "../../xlsx/index.js";
import { findOutlets } from "./find-outlets.js";
import type { RollUpIssue } from "./issue.js";
import { readJobDetails } from "./job-details.js";
import type { OutletRecord } from "./outlet-record.js";
import { readOutlet } from "./read-outlet.js";
import type { Finding } from "./row-reader.js";
import type { CalculatedResults } from "./sheet-reader.js";

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
 * Reads the outlets of one job's workbook: those of its job summary or, where it has none, of its room balance.
 *
 * @param workbook - As opened
 * @param calculated - Results for formulas that store none, as far as the caller could calculate them
 * @returns Every outlet, and what was found wanting; never stops at the first
 */
export function readOutlets(workbook: Workbook, calculated: CalculatedResults): OutletsRead {
  const file = workbook.fileName;
  try {
    const { value, issues } = outletsOf(workbook, calculated);
    return { value, issues: issues.map((issue) => ({ ...issue, file })) };
  } catch (cause) {
    return { value: [], issues: [notOpened(file, cause)] };
  }
}

function outletsOf(
  workbook: Workbook,
  calculated: CalculatedResults,
): { readonly value: readonly OutletRecord[]; readonly issues: readonly Finding[] } {
  const { value: blocks, issues } = findOutlets(workbook);
  const [first] = blocks;
  if (first === undefined) return { value: [], issues };
  const job = readJobDetails(workbook, calculated);
  const rows = blocks.flatMap((block) =>
    Array.from({ length: Math.max(block.lastRow - block.headerRow, 0) }, (_, index) =>
      readOutlet(block, block.headerRow + 1 + index, job, workbook.usesDate1904, calculated),
    ),
  );
  const outlets = rows.flatMap(({ value }) => (value === null ? [] : [value]));
  const findings = [...issues, ...rows.flatMap((row) => row.issues), ...repeatedTags(outlets)];
  if (outlets.length > 0) return { value: outlets, issues: findings };
  const message = `No outlet is listed on its ${first.source.name}. Fill it, or leave the file out.`;
  return {
    value: [],
    issues: [...findings, { code: "no-outlets", leftOut: "file", place: first.sheet.name, message }],
  };
}

/** Tags that stand twice under one system: perhaps a row was copied, and its air counts twice. */
function repeatedTags(outlets: readonly OutletRecord[]): readonly Finding[] {
  const seen = new Map<string, OutletRecord>();
  return outlets.flatMap((outlet) => {
    const key = [outlet.jobNumber, outlet.system, outlet.outlet].join("\n").toLowerCase();
    const earlier = seen.get(key);
    if (earlier === undefined) {
      seen.set(key, outlet);
      return [];
    }
    const message = `Outlet ${outlet.outlet} stands in row ${earlier.row} already; both count. If one was copied, delete it.`;
    return [{ code: "repeated-outlet", leftOut: "note", place: `${outlet.sheet}!${outlet.row}`, message } as const];
  });
}
