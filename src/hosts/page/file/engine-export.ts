import type { Model } from "@odoo/o-spreadsheet";

/** A sheet as the engine exports it; what is not named here is compared whole. */
export interface ExportedSheet {
  readonly id: string;
  readonly name: string;
  readonly rowNumber: number;
  readonly colNumber: number;
  readonly cells: Readonly<Record<string, string | undefined>>;
  readonly [part: string]: unknown;
}

/** A workbook as the engine exports it, contents spelled out. */
export interface ExportedWorkbook {
  readonly sheets: readonly ExportedSheet[];
  readonly namedRanges: Readonly<Record<string, string>>;
  readonly styles: Readonly<Record<string, unknown>>;
  readonly formats: Readonly<Record<string, unknown>>;
  readonly borders: Readonly<Record<string, unknown>>;
  readonly [part: string]: unknown;
}

/** Returns a model's data in the engine's own form. */
export function exportedFrom(model: Model): ExportedWorkbook {
  return model._exportData(false) as unknown as ExportedWorkbook;
}
