import type { InteractiveHost } from "../../workbook/index.js";
import { afterNextFrame } from "./after-next-frame.js";
import { openDropped } from "./drop-target.js";
import { fieldViewBy } from "./field-view.js";
import { runInWorker, StoppedError } from "./file/run-in-worker.js";
import { goRoundByKey } from "./go-round-by-key.js";
import { registerSheetActions } from "./grid/bars.js";
import { registerFilterIcons } from "./grid/filter-icons.js";
import { type PageActions, registerMenus } from "./grid/menus.js";
import { makeHistory } from "./history.js";
import { holdInput } from "./hold-input.js";
import type { KeepState } from "./keep-workbook.js";
import { messagesIn } from "./messages.js";
import { keepOffline } from "./offline/keep-offline.js";
import { openDemonstration } from "./open-demonstration.js";
import { openByPicker, openChosen } from "./open-file.js";
import type { PageContext } from "./page-context.js";
import { pageElements } from "./page-elements.js";
import { pageHost } from "./page-host.js";
import { showPaneBy } from "./pane-toggle.js";
import { printBy } from "./print-sheet.js";
import { handOff, saveCopy, saveWorkbook } from "./save-file.js";
import { startNew } from "./start-new.js";
import { askKeeping, readStored, type StoredWorkbook } from "./stored-workbook.js";
import { structureActions } from "./structure-actions.js";
import { chosenTemplate } from "./template-bytes.js";
import { watchDisk } from "./watch-disk.js";
import { makeWatchers } from "./watchers.js";
import { viewWorkbook, type WorkbookView } from "./workbook-view.js";
import "./look.css";
import "./page.css";
import "./messages.css";
import "./print.css";

/** An empty workbook, for a page whose demonstration cannot be read. */
const EMPTY: StoredWorkbook = {
  title: "Workbook",
  data: {},
  movedSheetIds: [],
  protectedSheetIds: [],
  isChanged: false,
  file: null,
};

/** Ctrl+S saves from wherever the focus is; the browser would save the page. */
function saveByKey(save: () => void): void {
  const onKey = (event: KeyboardEvent): void => {
    if (!(event.ctrlKey || event.metaKey) || event.shiftKey || event.key.toLowerCase() !== "s") return;
    event.preventDefault();
    event.stopPropagation();
    save();
  };
  window.addEventListener("keydown", onKey, { capture: true });
}

/**
 * Opens the local workbook page: the workbook of the last visit, or the demonstration job.
 *
 * @param onField - Called when the pane takes the place of the grid, for work on site, and gives it back
 * @returns The page as a host, for a pane that stands beside the grid; it goes on to speak for what is opened later
 */
export async function openPage(onField: (isField: boolean) => void): Promise<InteractiveHost> {
  const tasks = runInWorker();
  tasks.start();
  const elements = pageElements();
  const messages = messagesIn(elements.messages, elements.busy);
  const watchers = makeWatchers();
  const keeping = await askKeeping();
  const isKept = keeping.why === null;
  let current: WorkbookView | null = null;

  const tellKept = (state: KeepState): void => {
    const hasFailed = state.kind === "failed";
    elements.kept.classList.toggle("failed", hasFailed);
    elements.kept.textContent = hasFailed
      ? `Your changes are not kept: ${state.reason} They are lost when this page closes.`
      : state.isInFile
        ? "The file holds everything."
        : "Your changes are kept in this browser. Save puts them into the file.";
  };

  /** The workbook that is being made. Where another one is asked for, that is the one to be shown. */
  let making = new AbortController();

  const context: PageContext = {
    messages,
    run: tasks.run,
    runBeside:
      typeof Worker === "undefined" ? null : runInWorker("The workbook takes too long to look through. Split it.").run,
    stop() {
      tasks.stop();
      making.abort(new StoppedError());
    },
    hold: () => holdInput([elements.workbook, elements.pane]),
    afterNextFrame,
    history: makeHistory(),
    view: () => {
      if (current === null) throw new Error("No workbook is open.");
      return current;
    },
    show: async (stored, isSame) => {
      if (isSame !== true) messages.clear();
      if (isSame !== true) context.history.clear();
      making.abort(new StoppedError());
      making = new AbortController();
      const stopped = making.signal;
      const surroundings = { elements, messages, watchers, isKept, tellKept, actions: structure, stopped };
      current = await viewWorkbook(stored, surroundings, () => current?.close());
      watchers.tellNew(current.model, isSame);
      return current;
    },
  };

  const structure = structureActions(context);

  const openFirst = async (): Promise<void> => {
    try {
      await openDemonstration(context, async () => true);
      messages.busy("");
    } catch (cause) {
      messages.busy("");
      await (await context.show(EMPTY)).keepWhole();
      messages.raiseError(cause instanceof Error ? cause.message : String(cause));
    }
  };

  const openStored = async (): Promise<void> => {
    try {
      const stored = keeping.canRead ? await readStored() : null;
      if (stored === null) await openFirst();
      else {
        await context.show(stored);
        tellKept({ kind: "kept", isInFile: !stored.isChanged });
      }
    } catch (cause) {
      const reason = cause instanceof Error ? cause.message : String(cause);
      messages.raiseError(
        `The workbook of your last visit cannot be opened (${reason}). The demonstration is open instead.`,
      );
      await openFirst();
    }
  };

  showPaneBy(elements.paneToggle, elements.pane);
  const field = fieldViewBy(elements.fieldToggle, elements.pane, onField);
  goRoundByKey(elements.actions, elements.pane);
  printBy(elements.print, elements.printed, context);
  openDropped(elements.drop, (chosen) => openChosen(context, chosen), messages.raiseError);
  elements.open.addEventListener("click", () => void openByPicker(context));
  elements.save.addEventListener("click", () => void saveWorkbook(context));
  elements.saveCopy.addEventListener("click", () => void saveCopy(context));
  elements.handOff.addEventListener("click", () => void handOff(context));
  elements.newWorkbook.addEventListener("click", () => void startNew(context));
  registerSheetActions(structure);
  const actions: PageActions = {
    start: () => void startNew(context),
    open: () => void openByPicker(context),
    save: () => void saveWorkbook(context),
    saveCopy: () => void saveCopy(context),
    handOff: () => void handOff(context),
    print: () => elements.print.click(),
    showField: field.toggle,
    togglePane: () => elements.paneToggle.click(),
  };
  registerMenus(actions, structure);
  registerFilterIcons(structure.filterBy);
  saveByKey(() => void saveWorkbook(context));
  await openStored();
  void keepOffline(messages);
  watchDisk(context);
  if (keeping.why !== null) tellKept({ kind: "failed", reason: keeping.why });
  return pageHost(context, watchers, chosenTemplate);
}
