import { isCoreCommand, type Model } from "@odoo/o-spreadsheet";
import { exportInSteps, inOneGo } from "../../../engine/index.js";
import { inSlices } from "../in-slices.js";

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

/** Takes a workbook out of the engine as often as it is asked for. Nobody changes what is returned. */
export interface Exporter {
  /** All of it as it is now, in one go where something has changed. */
  readonly exported: () => ExportedWorkbook;
  /** The same, and lets the page answer meanwhile; what is entered meanwhile lets it begin anew. */
  readonly exportedInSlices: () => Promise<ExportedWorkbook>;
  /** Whether nothing has changed since this was taken out. */
  readonly isAsIn: (exported: ExportedWorkbook) => boolean;
  readonly stop: () => void;
}

/** Somebody who goes on typing must not keep the workbook from being taken out. */
const MOST_BEGINNINGS = 5;

/**
 * Returns what takes a workbook out of the engine; again only where something has changed.
 *
 * @param first - What it is now, where that is known
 */
export function exporterOf(model: Model, first: ExportedWorkbook | null): Exporter {
  const owner = {};
  let latest = first;
  let beginning = new AbortController();
  const note = (command: { readonly type: string }): void => {
    if (!isCoreCommand(command as never) && command.type !== "UNDO" && command.type !== "REDO") return;
    latest = null;
    beginning.abort();
  };
  model.on("command-dispatched", owner, note as never);
  const exported = (): ExportedWorkbook => {
    latest ??= exportedFrom(model);
    return latest;
  };
  const inSlicesAnew = async (): Promise<ExportedWorkbook> => {
    for (let count = 0; latest === null && count < MOST_BEGINNINGS; count += 1) {
      beginning = new AbortController();
      const { signal } = beginning;
      try {
        const whole = (await inSlices(exportInSteps(model), signal)) as ExportedWorkbook;
        if (!signal.aborted) latest = whole;
      } catch (cause) {
        if (!signal.aborted) throw cause;
      }
    }
    return exported();
  };
  let running: Promise<ExportedWorkbook> | null = null;
  return {
    exported,
    exportedInSlices() {
      running ??= inSlicesAnew().finally(() => {
        running = null;
      });
      return running;
    },
    isAsIn: (whole) => latest === whole,
    stop: () => model.off("command-dispatched", owner),
  };
}
