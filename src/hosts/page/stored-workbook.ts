import { get, getMany, set, setMany } from "idb-keyval";
import { inOneGo, type WorkbookConversion } from "../../engine/index.js";
import { type KeptEntries, withEntries } from "./entries-since.js";
import type { ExportedWorkbook } from "./file/engine-export.js";
import type { PageFile } from "./file/page-file.js";
import { inSlices } from "./in-slices.js";
import { type PackedWorkbook, packedWorkbook, unpackedWorkbook } from "./packed-workbook.js";

const KEY = "vanesheet-workbook";
/** The bytes change with each save alone, so they are kept apart from what changes with each entry. */
const FILE_KEY = "vanesheet-file";
/** What was entered since the workbook was kept as a whole. */
const ENTRIES_KEY = "vanesheet-entries";
/** Under which nothing is kept: asking for it says whether the storage answers. */
const NOTHING_KEY = "vanesheet-nothing";

const DRAWINGS_KEY = "vanesheet-drawings";

/** What lies over the cells, by the id of the figure that holds its place. */
export type Drawings = WorkbookConversion["drawings"];

/** A browser that takes longer than this to answer does not answer. */
const PATIENCE_MS = 5_000;

/** What changes of the workbook in view with an entry, its cells apart. */
export interface StoredState {
  readonly title: string;
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

/** What changes of the workbook in view from entry to entry. */
export interface StoredView extends StoredState {
  /** In the engine's own form. */
  readonly data: object;
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

/** Entries belong to the workbook that was kept under the same stamp, and to no other. */
interface StampedView extends StoredState {
  readonly stamp?: string;
  /** Not there where it is what the file holds. */
  readonly data?: object;
}
interface StampedEntries extends StoredState {
  readonly stamp: string;
  readonly entries: KeptEntries;
}

const NO_ANSWER = "this browser's storage does not answer.";

/** Says in words why the browser does not keep something. */
export function storageWords(cause: unknown): string {
  const { name, message } = cause instanceof Error ? cause : { name: "", message: String(cause) };
  if (message === NO_ANSWER) return message;
  if (name === "QuotaExceededError" || /full disk|disk is full|quota/i.test(message))
    return "this browser's storage is full.";
  if (name === "ReferenceError") return "this browser has no storage for pages.";
  return `this browser's storage refuses it (${message.replace(/\.$/, "")}).`;
}

/** Waits for the browser's storage, which may hang for ever, and says so. */
async function inTime<T>(asked: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(NO_ANSWER)), PATIENCE_MS);
  });
  try {
    return await Promise.race([asked, late]);
  } finally {
    clearTimeout(timer);
  }
}

/** The file as it is kept. */
type PackedFile = Omit<PageFile, "baseline"> & { readonly baseline: PackedWorkbook };

async function unpackedFile(file: PackedFile | null): Promise<PageFile | null> {
  return file === null ? null : { ...file, baseline: await inSlices(unpackedWorkbook(file.baseline)) };
}

/** What is not packed yet is packed at once: all of it is handed to the storage before anything else is done. */
function packed(data: object): PackedWorkbook {
  return inOneGo(packedWorkbook(data as ExportedWorkbook));
}

/** Returns the workbook of the last visit, null where there is none. */
export async function readStored(): Promise<StoredWorkbook | null> {
  const [kept, entered, ofFile, over] = await inTime(getMany([KEY, ENTRIES_KEY, FILE_KEY, DRAWINGS_KEY]));
  const view = kept as (Pick<StampedView, "title"> & Partial<StampedView>) | undefined;
  const file = await unpackedFile((ofFile as PackedFile | null | undefined) ?? null);
  const data =
    view?.data === undefined ? file?.baseline : await inSlices(unpackedWorkbook(view.data as PackedWorkbook));
  if (view === undefined || data === undefined) return null;
  const { stamp, ...rest } = view;
  const usual = { movedSheetIds: [], protectedSheetIds: [], isChanged: true };
  const drawings = (over as Drawings | undefined) ?? {};
  const whole = { ...usual, ...rest, data, isOfLastVisit: true, file, drawings };
  const later = entered as StampedEntries | null | undefined;
  if (later == null || stamp === undefined || later.stamp !== stamp) return whole;
  const { entries, stamp: _, ...state } = later;
  return { ...whole, ...state, data: withEntries(data, entries) };
}

/**
 * Keeps the workbook with its file, in one step.
 *
 * @param stamp - Under which entries are added to it
 */
export async function keepStored(
  { file, drawings, isOfLastVisit: _, ...view }: StoredWorkbook,
  stamp: string,
): Promise<void> {
  const { data, ...state } = view;
  const kept: StampedView = data === file?.baseline ? { ...state, stamp } : { ...state, data: packed(data), stamp };
  await inTime(
    setMany([
      [FILE_KEY, file === null ? null : ({ ...file, baseline: packed(file.baseline) } satisfies PackedFile)],
      [DRAWINGS_KEY, drawings ?? {}],
      [KEY, kept],
      [ENTRIES_KEY, null],
    ]),
  );
}

/** Keeps what was entered and how it looks; the file stays as it was kept. */
export async function keepView(view: StoredView, stamp: string): Promise<void> {
  await inTime(
    setMany([
      [KEY, { ...view, data: packed(view.data), stamp } satisfies StampedView],
      [ENTRIES_KEY, null],
    ]),
  );
}

/** Keeps what was entered since the workbook was kept under a stamp. */
export async function keepEntries(state: StoredState, entries: KeptEntries, stamp: string): Promise<void> {
  await inTime(set(ENTRIES_KEY, { ...state, entries, stamp } satisfies StampedEntries));
}

/** Whether this tab keeps its workbook in the browser. */
export interface Keeping {
  /** Why it does not; null where it does. */
  readonly why: string | null;
  /** Whether what was kept before can be read. */
  readonly canRead: boolean;
}

/**
 * Asks whether this tab keeps its workbook, and lets it do so until it is closed.
 *
 * Two tabs would overwrite each other's workbook, so only the first one keeps its changes.
 */
export async function askKeeping(): Promise<Keeping> {
  try {
    await inTime(get(NOTHING_KEY));
  } catch (cause) {
    return { why: storageWords(cause), canRead: false };
  }
  // Types promise what browsers have on https and on this machine; elsewhere it is not there.
  const { locks } = navigator as { readonly locks?: LockManager };
  const cannotTell = { why: "this browser cannot tell whether the page is open in another tab.", canRead: true };
  if (locks === undefined) return cannotTell;
  const isFirst = new Promise<boolean>((resolve, reject) => {
    locks
      .request(KEY, { ifAvailable: true }, (lock) => {
        resolve(lock !== null);
        return lock === null ? undefined : new Promise<void>(() => undefined);
      })
      .catch(reject);
  });
  const isOnly = await inTime(isFirst).catch(() => null);
  if (isOnly === null) return cannotTell;
  return isOnly
    ? { why: null, canRead: true }
    : { why: "this page is open in another tab, which keeps its own.", canRead: true };
}
