import { HostError } from "../../workbook/index.js";
import { afterCellEdit, excelErrorCode } from "./after-cell-edit.js";

/** What Excel's error codes mean to a person, and what helps. */
const EXPLANATIONS: Readonly<Record<string, string>> = {
  InvalidOperationInCellEditMode: "A cell is being edited. Press Enter or Escape in the sheet, then try again.",
  AccessDenied:
    "The sheet or the workbook is protected, or was opened for reading only. Unprotect it, or save a copy and work there.",
  ItemNotFound: "A sheet or name that it needs is gone. Look whether it was renamed or deleted.",
  InvalidReference: "A sheet or range that it needs is gone. Look whether it was renamed or deleted.",
  InvalidArgument: "Excel does not take a value or an address of this. Look whether the sheet was changed meanwhile.",
  MergedRangeConflict: "Merged cells are in the way. Unmerge them and try again.",
  PivotTableRangeConflict: "A pivot table is in the way. Move it and try again.",
  FilteredRangeConflict: "A filter is in the way. Clear it and try again.",
  InactiveWorkbook: "The workbook is no longer open.",
  RequestPayloadSizeLimitExceeded: "That is more than Excel takes at once. Do it in smaller parts.",
  ResponsePayloadSizeLimitExceeded: "That is more than Excel hands over at once. Use fewer or smaller ranges.",
  ActivityLimitReached: "Excel is busy. Wait a moment and try again.",
  RequestAborted: "Excel broke it off. Try again.",
  ConnectionFailure: "The connection to Excel is lost. Check the network and try again.",
  Timeout: "Excel did not answer in time. Try again.",
};

/** Puts one clear sentence to what Excel says; a `HostError` passes as it is. */
export function asHostError(failure: string, thrown: unknown): HostError {
  if (thrown instanceof HostError) return thrown;
  const code = excelErrorCode(thrown);
  const said = thrown instanceof Error ? thrown.message : String(thrown);
  return new HostError(`${failure} ${EXPLANATIONS[code ?? ""] ?? `Excel says: ${said}`}`, { cause: thrown });
}

/**
 * Runs one batch in Excel, once no cell is being edited. It may run anew from its start, so it does nothing twice that
 * must happen once.
 *
 * @param failure - The sentence that a failure begins with: "The sheets could not be read."
 * @throws {HostError} With that sentence and what helps
 */
export async function runExcel<Result>(
  failure: string,
  batch: (context: Excel.RequestContext) => Promise<Result>,
): Promise<Result> {
  try {
    return await afterCellEdit(() => Excel.run(batch));
  } catch (thrown) {
    throw asHostError(failure, thrown);
  }
}
