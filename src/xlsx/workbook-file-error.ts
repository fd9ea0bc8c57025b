import { HostError } from "./host-error.js";

/** What is wrong with a file, for callers that act on it; the message says the same in words. */
export type WorkbookFileErrorCode =
  | "empty"
  | "encrypted"
  | "old-format"
  | "plain-text"
  | "web-page"
  | "pdf"
  | "binary-workbook"
  | "open-document"
  | "not-a-workbook"
  | "too-large"
  | "damaged-archive"
  | "unsafe-archive"
  | "damaged-xml"
  | "unsafe-xml"
  | "damaged-workbook"
  | "signed"
  | "refused-edit"
  | "not-found"
  | "not-readable"
  | "not-writable"
  | "changed-on-disk"
  | "open-elsewhere";

/** What opening, changing or saving a workbook file throws. The message names the file, says what is wrong and what to do. */
export class WorkbookFileError extends HostError {
  /**
   * @param code - What is wrong, for a program
   * @param place - The file, or the file and its part, sheet or cell
   * @param problem - What is wrong, in words, without a full stop
   * @param advice - What the person can do about it, one sentence
   */
  constructor(
    readonly code: WorkbookFileErrorCode,
    readonly place: string,
    readonly problem: string,
    readonly advice: string,
    options?: ErrorOptions,
  ) {
    super(`${place}: ${problem}. ${advice}`, options);
    this.name = "WorkbookFileError";
  }
}
