import {
  jobFigures,
  notOpened,
  type OutletRecord,
  type OutletsRead,
  type RollUpIssue,
  readOutlets,
} from "../../../workbook/rollup/index.js";
import { WorkbookFileError, type WorkbookFileErrorCode } from "../../../xlsx/index.js";
import { openWorkbookFile, type WorkbookFile } from "../open-workbook-file.js";
import type { FoundWorkbook } from "./find-workbooks.js";
import { type KeptReading, spelledReading } from "./kept-readings.js";

/** A workbook to read, and what its content was when it was last read. */
export interface ReadRequest extends FoundWorkbook {
  /** "" when it was never read. */
  readonly knownSha256: string;
}

export type ReadAnswer =
  /** The content is what it was. */
  | { readonly kind: "unchanged"; readonly path: string; readonly modifiedMs: number }
  | {
      readonly kind: "read";
      readonly reading: KeptReading;
      /** The reading with its outlets, as it is kept. */
      readonly spelled: Uint8Array;
      /** Whether reading it again would give the same: not so where the file was locked or out of reach. */
      readonly isLasting: boolean;
    };

/** Findings about one workbook beyond this are counted, not listed. */
const MOST_ISSUES = 100;

/** Reasons that may be gone in the next run although the file stays as it is. */
const PASSING: ReadonlySet<WorkbookFileErrorCode> = new Set(["not-found", "not-readable", "open-elsewhere"]);

/** Reads one workbook for the roll-up; whatever is wrong with it is a finding. */
export async function readJobFile(request: ReadRequest): Promise<ReadAnswer> {
  try {
    const opened = await openWorkbookFile(request.path);
    const { sha256, modifiedMs, bytes } = opened.identity;
    if (sha256 === request.knownSha256) return { kind: "unchanged", path: request.path, modifiedMs };
    const { value: outlets, issues } = await outletsOf(opened);
    const { file, path } = request;
    return answer(
      {
        path,
        bytes,
        modifiedMs,
        sha256,
        figures: jobFigures({ file, modifiedMs, contentHash: sha256 }, outlets),
        issues: shortened(issues, file),
      },
      outlets,
      true,
    );
  } catch (cause) {
    return failed(request, cause);
  }
}

/** The answer for a workbook that cannot be read. */
export function failed({ path, file, bytes, modifiedMs }: ReadRequest, cause: unknown): ReadAnswer {
  const isKnown = cause instanceof WorkbookFileError;
  const issue = isKnown ? notOpened(file, cause) : unforeseen(file, cause);
  const reading = { path, bytes, modifiedMs, sha256: "", figures: [], issues: [issue] };
  return answer(reading, [], isKnown && !PASSING.has(cause.code));
}

function answer(reading: KeptReading, outlets: readonly OutletRecord[], isLasting: boolean): ReadAnswer {
  return { kind: "read", reading, spelled: spelledReading(reading, outlets), isLasting };
}

/** Reads the outlets; where formulas have no stored result, calculates them first. */
async function outletsOf({ workbook }: WorkbookFile): Promise<OutletsRead> {
  const stored = readOutlets(workbook, new Map());
  if (!stored.issues.some(({ code }) => code === "not-calculated")) return stored;
  return calculatedOutlets(workbook);
}

async function calculatedOutlets(workbook: WorkbookFile["workbook"]): Promise<OutletsRead> {
  const { calculateXlsx } = await import("../../../engine/calculation.js");
  const { edits } = calculateXlsx(workbook);
  const results = new Map(edits.map(({ sheet, address, value }) => [`${sheet}!${address}`, value]));
  const { value, issues } = readOutlets(workbook, results);
  const message = `Of its formulas ${edits.length} had no stored result, or an old one, and were calculated for this roll-up.`;
  const calculated = { code: "noted", leftOut: "note", file: workbook.fileName, place: "", message } as const;
  return { value, issues: [calculated, ...issues] };
}

function unforeseen(file: string, cause: unknown): RollUpIssue {
  const reason = cause instanceof Error ? cause.message : String(cause);
  const message = `It could not be read (${reason}). Please report it as a fault of Vanesheet.`;
  return { code: "not-opened", leftOut: "file", file, place: "", message };
}

function shortened(issues: readonly RollUpIssue[], file: string): readonly RollUpIssue[] {
  const named = issues.map((issue) => ({ ...issue, file }));
  if (named.length <= MOST_ISSUES) return named;
  const message = `${named.length - MOST_ISSUES} more findings of this workbook are not listed.`;
  return [...named.slice(0, MOST_ISSUES), { code: "noted", leftOut: "note", file, place: "", message }];
}
