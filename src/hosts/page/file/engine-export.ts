import { isCoreCommand, type Model } from "@odoo/o-spreadsheet";
import { exportInSteps, inOneGo } from "../../../engine/index.js";

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
  return inOneGo(exportInSteps(model)) as ExportedWorkbook;
}

/**
 * Returns a model's data as often as it is asked for; it is taken out of the engine again where something has changed.
 * Nobody changes what is returned.
 *
 * @param first - What it is now, where that is known
 */
export function exporterOf(
  model: Model,
  first: ExportedWorkbook | null,
): { readonly exported: () => ExportedWorkbook; readonly stop: () => void } {
  const owner = {};
  let latest = first;
  const note = (command: { readonly type: string }): void => {
    if (isCoreCommand(command as never) || command.type === "UNDO" || command.type === "REDO") latest = null;
  };
  model.on("command-dispatched", owner, note as never);
  return {
    exported() {
      latest ??= exportedFrom(model);
      return latest;
    },
    stop: () => model.off("command-dispatched", owner),
  };
}
