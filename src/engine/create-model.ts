import type { Model } from "@odoo/o-spreadsheet";
import { inOneGo } from "./in-steps/in-one-go.js";
import { type ModelConfig, modelInSteps } from "./in-steps/model-in-steps.js";

/** A sheet to start from. A content that begins with "=" is a formula. */
export interface SheetData {
  readonly id: string;
  readonly name: string;
  readonly colNumber: number;
  readonly rowNumber: number;
  readonly cells: Readonly<Record<string, string>>;
}

/** A workbook in the library's own form, which it also writes back. */
export interface WorkbookData {
  readonly sheets: readonly SheetData[];
  /** What each defined name refers to: `Outlets!A1:A9`. */
  readonly namedRanges?: Readonly<Record<string, string>>;
}

/** Makes the library know our functions, and returns a calculating workbook. */
export function createModel(data: WorkbookData | object, config: ModelConfig = {}): Model {
  return inOneGo(modelInSteps(data, config));
}
