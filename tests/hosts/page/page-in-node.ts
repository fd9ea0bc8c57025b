import { createModel, protectCells } from "../../../src/engine/index.js";
import { exporterOf } from "../../../src/hosts/page/file/engine-export.js";
import { type RunTask, XLSX_TASKS } from "../../../src/hosts/page/file/xlsx-tasks.js";
import { makeHistory } from "../../../src/hosts/page/history.js";
import type { PageContext } from "../../../src/hosts/page/page-context.js";
import type { StoredWorkbook } from "../../../src/hosts/page/stored-workbook.js";
import { makeWatchers } from "../../../src/hosts/page/watchers.js";
import type { WorkbookView } from "../../../src/hosts/page/workbook-view.js";

/** What the page said, in order. */
export interface SaidWords {
  readonly said: string[];
}

/** The page without a browser: tasks run at once, and a workbook is held instead of shown. */
export function pageInNode(
  first: StoredWorkbook,
): PageContext & SaidWords & { readonly watchers: ReturnType<typeof makeWatchers> } {
  const said: string[] = [];
  const watchers = makeWatchers();
  const hold = (stored: StoredWorkbook): WorkbookView => {
    const model = createModel(stored.data);
    const protectedSheetIds = new Set(stored.protectedSheetIds);
    protectCells(model, protectedSheetIds);
    watchers.follow(model);
    let { title, file, drawings = {}, isChanged, identity = null as string | null } = stored;
    return {
      model,
      title: () => title,
      file: () => file,
      drawings: () => drawings,
      dropDrawings: () => {
        drawings = {};
      },
      isChanged: () => isChanged,
      identity: () => identity,
      keepIdentity: async (id) => {
        identity = id;
      },
      movedSheetIds: new Set(stored.movedSheetIds),
      protectedSheetIds,
      ...exporterOf(model, null),
      setFile: async (next, isStillChanged) => {
        file = next;
        title = next.name;
        isChanged = isStillChanged;
      },
      keepWhole: async () => undefined,
      finishEntry: () => true,
      close: () => undefined,
    };
  };
  let current = hold(first);
  const run = (async (name: keyof typeof XLSX_TASKS, ...given: unknown[]) =>
    (XLSX_TASKS[name] as (...given: unknown[]) => unknown)(...given)) as RunTask;
  return {
    said,
    watchers,
    run,
    runBeside: run,
    stop: () => undefined,
    history: makeHistory(),
    hold: () => () => undefined,
    afterNextFrame: async () => undefined,
    view: () => current,
    show: async (stored, isSame) => {
      current = hold(stored);
      watchers.tellNew(current.model, isSame);
      return current;
    },
    messages: {
      notifyUser: ({ text }) => void said.push(text),
      raiseError: (text) => void said.push(text),
      askConfirmation: (_text, confirm) => confirm(),
      choose: async (_text, labels) => labels[0] ?? null,
      busy: () => undefined,
      ask: async (_text, value) => value,
      offer: (text) => void said.push(text),
      clear: () => undefined,
    },
  };
}
