import type { Model } from "@odoo/o-spreadsheet";
import { entriesSince } from "./entries-since.js";
import type { ExportedWorkbook } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import type { KeepState } from "./keep-changes.js";
import { type Drawings, keepEntries, keepStored, keepView, type StoredState, storageWords } from "./stored-workbook.js";

/** Keeps a workbook in the browser. Whatever keeps it from that is told, and thrown at nobody: a file is saved all the same. */
export interface WorkbookKeeper {
  /** Keeps all of it, with its file. */
  readonly whole: (file: PageFile | null, drawings: Drawings) => Promise<void>;
  /** Keeps what changed since. */
  readonly changes: () => Promise<void>;
  readonly stop: () => void;
}

/**
 * Returns what keeps a workbook.
 *
 * @param state - What is kept beside its cells
 * @param exported - All of it in the engine's own form
 */
export function keeperOf(
  model: Model,
  state: () => StoredState,
  exported: () => ExportedWorkbook,
  tell: (state: KeepState) => void,
): WorkbookKeeper {
  const since = entriesSince(model);
  let stamp = "";
  const begin = (): ExportedWorkbook => {
    const data = exported();
    stamp = `${Date.now()} ${Math.random()}`;
    since.begin(data);
    return data;
  };
  const tried = async (keep: () => Promise<void>): Promise<boolean> => {
    try {
      await keep();
      tell({ kind: "kept", isInFile: !state().isChanged });
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
      all(() => {
        const data = begin();
        return keepStored({ ...state(), data, file, drawings }, stamp);
      }),
    async changes() {
      const entries = since.entries();
      if (entries !== null) await tried(() => keepEntries(state(), entries, stamp));
      else
        await all(() => {
          const data = begin();
          return keepView({ ...state(), data }, stamp);
        });
    },
    stop: since.stop,
  };
}
