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
  /** Where the browser lets the page write; null for a download. */
  readonly handle: FileSystemFileHandle | null;
}
