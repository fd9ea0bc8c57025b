import { type Finding, findingOf } from "../../../workbook/finding.js";
import { notOpened, type OutletRecord } from "../../../workbook/rollup/index.js";
import { WorkbookFileError, type WorkbookFileErrorCode } from "../../../xlsx/index.js";
import type { FoundWorkbook } from "./find-workbooks.js";
import { type KeptReading, spelledReading } from "./kept-readings.js";

/** What a thread that reads says once, when it can begin. */
export const READER_READY = "ready";

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

/** Reasons that may be gone in the next run although the file stays as it is. */
const PASSING: ReadonlySet<WorkbookFileErrorCode> = new Set(["not-found", "not-readable", "open-elsewhere"]);

/** The answer for a workbook that cannot be read. */
export function failed({ path, file, bytes, modifiedMs }: ReadRequest, cause: unknown): ReadAnswer {
  const isKnown = cause instanceof WorkbookFileError;
  const finding = isKnown ? notOpened(file, cause) : unforeseen(file, cause);
  const reading = { path, bytes, modifiedMs, sha256: "", figures: [], findings: [finding] };
  return answer(reading, [], isKnown && !PASSING.has(cause.code));
}

/** The answer for a workbook that was read. */
export function answer(reading: KeptReading, outlets: readonly OutletRecord[], isLasting: boolean): ReadAnswer {
  return { kind: "read", spelled: spelledReading(reading, outlets), isLasting };
}

function unforeseen(file: string, cause: unknown): Finding {
  const reason = cause instanceof Error ? cause.message : String(cause);
  const problem = `It could not be read (${reason}).`;
  return findingOf(file, "not-opened", "workbook", problem, "Please report it as a fault of Vanesheet.");
}
