import { get, set, setMany } from "idb-keyval";
import type { WorkbookConversion } from "../../engine/index.js";
import type { PageFile } from "./file/page-file.js";

const KEY = "vanesheet-workbook";
/** The bytes change with each save alone, so they are kept apart from what changes with each entry. */
const FILE_KEY = "vanesheet-file";
const DRAWINGS_KEY = "vanesheet-drawings";

/** What lies over the cells, by the id of the figure that holds its place. */
export type Drawings = WorkbookConversion["drawings"];

/** What changes of the workbook in view from entry to entry. */
export interface StoredView {
  readonly title: string;
  /** In the engine's own form. */
  readonly data: object;
  /** Sheets on which rows or columns were inserted, deleted or moved since the file was read. */
  readonly movedSheetIds: readonly string[];
  /** Sheets on which formulas may not be typed over. */
  readonly protectedSheetIds: readonly string[];
  /** Whether something was entered that is in no file yet. */
  readonly isChanged: boolean;
  /** The id under which the pane keeps what is typed beside this workbook. */
  readonly identity?: string;
  /** The sheet in front. */
  readonly activeSheetId?: string;
}

/** What the browser keeps between two visits. */
export interface StoredWorkbook extends StoredView {
  /** Whether it was read from what the browser kept. */
  readonly isOfLastVisit?: boolean;
  /** Null for a workbook that has no file yet. */
  readonly file: PageFile | null;
  /** Absent where nothing lies over its cells. */
  readonly drawings?: Drawings;
}

/** Returns the workbook of the last visit, null where there is none. */
export async function readStored(): Promise<StoredWorkbook | null> {
  const view = await get<Pick<StoredView, "title" | "data"> & Partial<StoredView>>(KEY);
  if (view === undefined) return null;
  return {
    movedSheetIds: [],
    protectedSheetIds: [],
    isChanged: true,
    ...view,
    isOfLastVisit: true,
    file: (await get<PageFile | null>(FILE_KEY)) ?? null,
    drawings: (await get<Drawings>(DRAWINGS_KEY)) ?? {},
  };
}

/** Keeps the workbook with its file, in one step. */
export async function keepStored({ file, drawings, isOfLastVisit: _, ...view }: StoredWorkbook): Promise<void> {
  await setMany([
    [FILE_KEY, file],
    [DRAWINGS_KEY, drawings ?? {}],
    [KEY, view],
  ]);
}

/** Keeps what was entered; the file stays as it was kept. */
export async function keepView(view: StoredView): Promise<void> {
  await set(KEY, view);
}

/**
 * Says whether this tab is the only one with the page open, and stays it until it is closed.
 *
 * Two tabs would overwrite each other's workbook, so only the first one keeps its changes.
 */
export function isOnlyTab(): Promise<boolean> {
  return new Promise((resolve) => {
    void navigator.locks.request(KEY, { ifAvailable: true }, (lock) => {
      resolve(lock !== null);
      return lock === null ? undefined : new Promise<void>(() => undefined);
    });
  });
}
