import { helpers, type Model } from "@odoo/o-spreadsheet";
import { exportInSteps, modelInSteps, prepareEntries, protectCells, watchChanges } from "../../engine/index.js";
import { activate } from "./activate-sheet.js";
import { showActiveTab } from "./active-tab.js";
import { loadCellFaces } from "./cell-faces.js";
import { readCellInto } from "./cell-reader.js";
import { drawFigures } from "./drawings/file-drawing.js";
import { showWorkbook } from "./engine-view.js";
import { refusalWords, showEntryWords } from "./entry-words.js";
import { showErrorsIn } from "./error-strip.js";
import { type ExportedWorkbook, type Exporter, exporterOf } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import { showFilterIn } from "./filter-status.js";
import { dropEntryDraft, keepEntryDraft, readEntryDraft } from "./grid/entry-draft.js";
import { entryNotes } from "./grid/entry-note.js";
import type { EntryEvents } from "./grid/entry-store.js";
import type { StructureActions } from "./grid/structure-menu-actions.js";
import { holdInput } from "./hold-input.js";
import { inSlices, nextTurn } from "./in-slices.js";
import { keepChanges } from "./keep-changes.js";
import { type KeepState, keeperOf } from "./keep-workbook.js";
import type { PageMessages } from "./messages.js";
import { packedWorkbook } from "./packed-workbook.js";
import type { PageElements } from "./page-elements.js";
import { tellLocked, watchLocked } from "./protected-cells.js";
import { showRowIn } from "./row-strip.js";
import type { Drawings, StoredState, StoredWorkbook } from "./stored-workbook.js";
import { tellKept } from "./tell-kept.js";
import { tellPasted } from "./tell-pasted.js";
import { watchMoves } from "./watch-moves.js";
import type { Watchers } from "./watchers.js";

/** A workbook in view. */
export interface WorkbookView {
  readonly model: Model;
  readonly title: () => string;
  readonly file: () => PageFile | null;
  /** What lies over the cells. */
  readonly drawings: () => Drawings;
  readonly movedSheetIds: ReadonlySet<string>;
  readonly protectedSheetIds: ReadonlySet<string>;
  /** The workbook in the engine's own form, contents spelled out. */
  readonly exported: Exporter["exported"];
  readonly exportedInSlices: Exporter["exportedInSlices"];
  /** Whether nothing has changed since this was taken out of the engine. */
  readonly isAsIn: Exporter["isAsIn"];
  /** Whether something was entered that is in no file yet. */
  readonly isChanged: () => boolean;
  /** The id that the workbook was given here; null where it has none. */
  readonly identity: () => string | null;
  readonly keepIdentity: (id: string) => Promise<void>;
  /** From now on the workbook stands for this file; nothing has moved since. */
  readonly setFile: (file: PageFile, isChanged: boolean) => Promise<void>;
  /** From now on nothing lies over the cells: the file is a new one, without it. */
  readonly dropDrawings: () => void;
  /** Keeps the workbook in the browser as it is, where it is not told of a file. */
  readonly keepWhole: () => Promise<void>;
  /** Enters what stands in the editor; returns whether nothing is left there. */
  readonly finishEntry: () => boolean;
  /** Puts the workbook away, before another is shown. */
  readonly close: () => void;
}

interface Made {
  readonly model: Model;
  readonly whole: ExportedWorkbook | null;
}

/** What a view needs of the page around it. */
export interface ViewSurroundings {
  readonly elements: PageElements;
  readonly messages: PageMessages;
  readonly watchers: Watchers;
  readonly isKept: boolean;
  readonly tellKept: (state: KeepState) => void;
  readonly actions: Pick<StructureActions, "undo" | "sortRows" | "filterBy">;
  /** Aborted where it is not to be shown after all. */
  readonly stopped: AbortSignal;
}

/** A workbook, and all of it in the engine's own form where that will be asked for at once. */
function* made({ data, isOfLastVisit }: StoredWorkbook, isKept: boolean): Generator<undefined, Made> {
  const spelled = new Map<number, string>();
  const model = yield* modelInSteps(data, {}, spelled);
  const whole = isOfLastVisit === true ? null : ((yield* exportInSteps(model, spelled)) as ExportedWorkbook);
  // The browser is handed it as soon as it is shown.
  if (isKept && whole !== null) yield* packedWorkbook(whole);
  return { model, whole };
}

/** Makes a workbook from what is stored of it, and shows it in place of the one before. */
export async function viewWorkbook(
  stored: StoredWorkbook,
  { elements, messages, watchers, isKept, tellKept: tellState, actions, stopped }: ViewSurroundings,
  putAway: () => void,
): Promise<WorkbookView> {
  const { activeElement } = document;
  const letGo = holdInput([elements.workbook, elements.pane]);
  const { model, whole } = await loadCellFaces()
    .then(() => inSlices(made(stored, isKept), stopped))
    .finally(letGo);
  const moved = new Set(stored.movedSheetIds);
  const protectedSheets = new Set(stored.protectedSheetIds);
  protectCells(model, protectedSheets);
  drawFigures(model, () => drawings);
  putAway();
  let { title, file, drawings = {}, isChanged, identity } = stored;
  let isClosed = false;
  elements.workbook.replaceChildren();
  elements.title.textContent = title;
  const note = entryNotes(model, elements.note);
  const events: EntryEvents = {
    refused: (place) => note.show(place, refusalWords(model, file?.words ?? {}, place)),
    locked: (place) => tellLocked(model, protectedSheets, note, place),
    typed(place, text) {
      note.hide();
      if (isKept) keepEntryDraft(place, text);
    },
    dropped(place, text) {
      const at = `${model.getters.getSheetName(place.sheetId)}!${helpers.toXC(place.col, place.row)}`;
      const reason = refusalWords(model, file?.words ?? {}, place);
      messages.notifyUser({ type: "warning", sticky: true, text: `“${text}” was not entered in ${at}. ${reason}` });
    },
    ended() {
      note.hide();
      if (isKept) dropEntryDraft();
    },
    undo: actions.undo,
    filter: () => actions.filterBy(),
  };
  const draft = isKept && stored.isOfLastVisit === true ? readEntryDraft() : null;
  const shown = await showWorkbook(model, elements.workbook, messages, events);
  prepareEntries(model);
  // The grid takes the focus as it appears, also from the pane, which may have asked for it.
  if (activeElement instanceof HTMLElement && elements.pane.contains(activeElement)) activeElement.focus();
  const state = (): StoredState => ({
    title,
    movedSheetIds: [...moved],
    protectedSheetIds: [...protectedSheets],
    isChanged,
    ...(identity === undefined ? {} : { identity }),
    activeSheetId: model.getters.getActiveSheetId(),
  });
  const exporter = exporterOf(model, whole);
  const keeper = isKept ? keeperOf(model, state, exporter, tellState) : null;
  const { activeSheetId } = stored;
  if (activeSheetId !== undefined && model.getters.tryGetSheetName(activeSheetId) !== undefined) {
    activate(model, activeSheetId);
  }
  if (draft !== null && model.getters.tryGetSheetName(draft.sheetId) !== undefined) {
    activate(model, draft.sheetId);
    model.selection.selectCell(draft.col, draft.row);
    shown.typeText(draft.text);
  } else if (isKept) dropEntryDraft();
  const stops = [
    note.stop,
    watchMoves(model, moved),
    watchChanges(model, () => {
      isChanged = true;
    }),
    exporter.stop,
    keeper === null ? () => undefined : keeper.stop,
    keeper === null ? () => undefined : keepChanges(model, keeper),
    showErrorsIn(model, elements),
    readCellInto(model, elements.cell),
    showRowIn(model, elements.row),
    showActiveTab(model),
    showFilterIn(model, elements.filtered),
    showEntryWords(model, () => file?.words ?? {}, elements.hint),
    watchLocked(model, protectedSheets, note),
    tellKept(model, messages, actions.sortRows),
    tellPasted(model, messages),
    watchers.follow(model),
  ];
  return {
    model,
    title: () => title,
    file: () => file,
    drawings: () => drawings,
    movedSheetIds: moved,
    protectedSheetIds: protectedSheets,
    exported: exporter.exported,
    exportedInSlices: exporter.exportedInSlices,
    isAsIn: exporter.isAsIn,
    isChanged: () => isChanged,
    identity: () => identity ?? null,
    async keepIdentity(id) {
      identity = id;
      await keeper?.changes();
    },
    dropDrawings() {
      drawings = {};
      model.trigger("update");
    },
    async setFile(next, isStillChanged) {
      file = next;
      isChanged = isStillChanged;
      title = next.name;
      moved.clear();
      elements.title.textContent = title;
      keeper?.standsFor(file, drawings);
      // The browser shows the workbook before all of it is handed to its storage.
      await nextTurn();
      if (!isClosed) await keeper?.changes();
    },
    async keepWhole() {
      keeper?.standsFor(file, drawings);
      await keeper?.changes();
    },
    finishEntry: shown.finishEntry,
    close() {
      isClosed = true;
      for (const stop of stops) stop();
      shown.takeDown();
    },
  };
}
