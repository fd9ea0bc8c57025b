import { WORKBOOK_LIMITS } from "./limits.js";
import { WorkbookFileError } from "./workbook-file-error.js";

/** Refuses a file that is larger than any workbook of this job, before its bytes are read where that is possible. */
export function requireFileSize(bytes: number, fileName: string): void {
  if (bytes <= WORKBOOK_LIMITS.fileBytes) return;
  throw new WorkbookFileError(
    "too-large",
    fileName,
    `is larger than ${WORKBOOK_LIMITS.fileBytes / 2 ** 20} MB`,
    "Remove pictures that this job does not need, or split the workbook.",
  );
}
