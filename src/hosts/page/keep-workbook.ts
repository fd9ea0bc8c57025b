import type { Model } from "@odoo/o-spreadsheet";
import { entriesSince } from "./entries-since.js";
import type { ExportedWorkbook, Exporter } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import type { KeepState } from "./keep-changes.js";
import { type Drawings, keepEntries, keepStored, keepView, type StoredState, storageWords } from "./stored-workbook.js";

/** Keeps a workbook in the browser. Whatever keeps it from that is told, and thrown at nobody: a file is saved all the same. */
export interface WorkbookKeeper {
  /** Keeps all of it, with its file. */
  readonly whole: (file: PageFile | null, drawings: Drawings) => Promise<void>;
  /** Keeps what changed since; at once where the page may be about to close. */
  readonly changes: (isAtOnce?: boolean) => Promise<void>;
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
    whole: (file, drawings) =>
      all(async () => {
        const data = await exportedInSlices();
        if (isStopped) return;
        begin(data);
        await keepStored({ ...state(), data, file, drawings }, stamp);
      }),
    async changes(isAtOnce = false) {
      const entries = since.entries();
      if (entries !== null) await tried(() => keepEntries(state(), entries, stamp));
      else
        await all(async () => {
          const data = isAtOnce ? exported() : await exportedInSlices();
          if (isStopped) return;
          begin(data);
          await keepView({ ...state(), data }, stamp);
        });
    },
    stop() {
      isStopped = true;
      since.stop();
    },
  };
}
