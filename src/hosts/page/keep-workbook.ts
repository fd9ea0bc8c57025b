import type { Model } from "@odoo/o-spreadsheet";
import { entriesSince } from "./entries-since.js";
import type { ExportedWorkbook, Exporter } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import { type Drawings, keepEntries, keepStored, keepView, type StoredState, storageWords } from "./stored-workbook.js";

/** What the person is told about keeping. */
export type KeepState =
  /** `isInFile` says whether the file holds all of it too. */
  { readonly kind: "kept"; readonly isInFile: boolean } | { readonly kind: "failed"; readonly reason: string };

/** Keeps a workbook in the browser. Whatever keeps it from that is told, and thrown at nobody: a file is saved all the same. */
export interface WorkbookKeeper {
  /** From now on the workbook stands for this file, which goes with the next changes that are kept. */
  readonly standsFor: (file: PageFile | null, drawings: Drawings) => void;
  /** Keeps what changed since, and the file where the browser does not have it; at once where the page may be about to close. */
  readonly changes: (isAtOnce?: boolean) => Promise<void>;
  /** Whether the browser has another file, or none, beside what it keeps. */
  readonly owesFile: () => boolean;
  readonly stop: () => void;
}

/**
 * Returns what keeps a workbook.
 *
 * @param state - What is kept beside its cells
 * @param exporter - Takes all of it out of the engine
 */
export function keeperOf(
  model: Model,
  state: () => StoredState,
  { exported, exportedInSlices }: Pick<Exporter, "exported" | "exportedInSlices">,
  tell: (state: KeepState) => void,
): WorkbookKeeper {
  const since = entriesSince(model);
  let stamp = "";
  let owed: { readonly file: PageFile | null; readonly drawings: Drawings } | null = null;
  /** Another workbook is in view, and is what the browser keeps. */
  let isStopped = false;
  const begin = (data: ExportedWorkbook): void => {
    stamp = `${Date.now()} ${Math.random()}`;
    since.begin(data);
  };
  const tried = async (keep: () => Promise<void>): Promise<boolean> => {
    try {
      await keep();
      if (!isStopped) tell({ kind: "kept", isInFile: !state().isChanged });
      return true;
    } catch (cause) {
      tell({ kind: "failed", reason: storageWords(cause) });
      return false;
    }
  };
  const all = async (keep: () => Promise<void>): Promise<void> => {
    if (!(await tried(keep))) since.forget();
  };
  return {
    standsFor(file, drawings) {
      owed = { file, drawings };
    },
    owesFile: () => owed !== null,
    async changes(isAtOnce = false) {
      const entries = owed === null ? since.entries() : null;
      if (entries !== null) await tried(() => keepEntries(state(), entries, stamp));
      else
        await all(async () => {
          const data = isAtOnce ? exported() : await exportedInSlices();
          if (isStopped) return;
          begin(data);
          const beside = owed;
          if (beside === null) return keepView({ ...state(), data }, stamp);
          await keepStored({ ...state(), data, ...beside }, stamp);
          if (owed === beside) owed = null;
        });
    },
    stop() {
      isStopped = true;
      since.stop();
    },
  };
}
