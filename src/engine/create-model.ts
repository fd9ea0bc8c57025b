import { Model } from "@odoo/o-spreadsheet";
import { prepareEngine } from "./prepare-engine.js";

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

/** The form of the data that this release of the library writes; what carries charts and styles must name it. */
export const DATA_VERSION = "19.3.2";

type ModelConfig = ConstructorParameters<typeof Model>[1];

/** Makes the library know our functions, and returns a calculating workbook. */
export function createModel(data: WorkbookData | object, config: NonNullable<ModelConfig> = {}): Model {
  prepareEngine();
  return new Model(data, config, [], undefined, false);
}
