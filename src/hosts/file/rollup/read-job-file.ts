import { type Finding, findingOf, hasError } from "../../../workbook/finding.js";
import {
  jobFigures,
  notOpened,
  type OutletRecord,
  type OutletsRead,
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
      /** The reading with its outlets, as it is kept: bytes go from thread to thread for nothing. */
      readonly spelled: Uint8Array;
      /** Whether reading it again would give the same: not so where the file was locked or out of reach. */
      readonly isLasting: boolean;
    };

/** Findings about one workbook beyond this are counted, not listed. */
const MOST_FINDINGS = 100;

/** Reasons that may be gone in the next run although the file stays as it is. */
const PASSING: ReadonlySet<WorkbookFileErrorCode> = new Set(["not-found", "not-readable", "open-elsewhere"]);

/** Reads one workbook for the roll-up; whatever is wrong with it is a finding. */
export async function readJobFile(request: ReadRequest): Promise<ReadAnswer> {
  try {
    const opened = await openWorkbookFile(request.path);
    const { sha256, modifiedMs, bytes } = opened.identity;
    if (sha256 === request.knownSha256) return { kind: "unchanged", path: request.path, modifiedMs };
    const { value: outlets, findings } = await outletsOf(opened);
    const { file, path } = request;
    return answer(
      {
        path,
        bytes,
        modifiedMs,
        sha256,
        figures: jobFigures({ file, modifiedMs, contentHash: sha256 }, outlets),
        findings: shortened(findings, file),
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
  const finding = isKnown ? notOpened(file, cause) : unforeseen(file, cause);
  const reading = { path, bytes, modifiedMs, sha256: "", figures: [], findings: [finding] };
  return answer(reading, [], isKnown && !PASSING.has(cause.code));
}

function answer(reading: KeptReading, outlets: readonly OutletRecord[], isLasting: boolean): ReadAnswer {
  return { kind: "read", spelled: spelledReading(reading, outlets), isLasting };
}

/** Reads the outlets; where formulas have no stored result, calculates them first. */
async function outletsOf({ workbook }: WorkbookFile): Promise<OutletsRead> {
  const stored = readOutlets(workbook, new Map());
  if (!stored.findings.some(({ kind }) => kind === "not-calculated")) return stored;
  return calculatedOutlets(workbook);
}

async function calculatedOutlets(workbook: WorkbookFile["workbook"]): Promise<OutletsRead> {
  const { calculatedResults } = await import("../../../engine/calculation.js");
  const results = calculatedResults(workbook);
  const { value, findings } = readOutlets(workbook, results);
  const problem = `Of its formulas ${results.size} had no stored result, or an old one, and were calculated for this roll-up.`;
  const calculated = findingOf(workbook.fileName, "noted", "nothing", problem, "");
  return { value, findings: [calculated, ...findings] };
}

function unforeseen(file: string, cause: unknown): Finding {
  const reason = cause instanceof Error ? cause.message : String(cause);
  const problem = `It could not be read (${reason}).`;
  return findingOf(file, "not-opened", "workbook", problem, "Please report it as a fault of Vanesheet.");
}

function shortened(findings: readonly Finding[], file: string): readonly Finding[] {
  const named = findings.map((finding) => ({ ...finding, file }));
  if (named.length <= MOST_FINDINGS) return named;
  const problem = `${named.length - MOST_FINDINGS} more findings of this workbook are not listed.`;
  const rest = findingOf(file, "noted", "nothing", problem, "");
  // What is not listed may be what leaves an outlet out.
  return [
    ...named.slice(0, MOST_FINDINGS),
    hasError(named.slice(MOST_FINDINGS)) ? { ...rest, severity: "error" } : rest,
  ];
}
