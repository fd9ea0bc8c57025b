import type { KeptFormula, WorkbookConversion } from "../../../engine/index.js";
import type { ExportedWorkbook } from "./engine-export.js";

/** The file behind the workbook in view. */
export interface PageFile {
  readonly name: string;
  /** As it was read or last saved. */
  readonly bytes: Uint8Array;
  /** The workbook in the engine's own form as these bytes give it. */
  readonly baseline: ExportedWorkbook;
  /** Formulas whose stored value stands in their place. */
  readonly kept: readonly KeptFormula[];
  readonly words: WorkbookConversion["words"];
  /**
   * Cells that were entered and saved since the file was read, by their sheet's id. The engine shows them in another way
   * than the file asks for, a number to the right and the like, which nobody chose.
   */
  readonly entered?: Readonly<Record<string, readonly string[]>>;
  /** Where the browser lets the page write; null for a download. */
  readonly handle: FileSystemFileHandle | null;
  /** What the place on the disk holds where that is not `bytes`: rows or sheets were changed since it was read. */
  readonly onDisk?: Uint8Array;
}

/** What the file on the disk must still hold when it is saved over. */
export function bytesOnDisk({ bytes, onDisk }: PageFile): Uint8Array {
  return onDisk ?? bytes;
}
