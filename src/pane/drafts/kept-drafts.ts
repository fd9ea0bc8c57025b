/** What was typed in the pane beside one workbook and stands in no cell yet. */
export interface KeptDrafts {
  /** The id of the workbook. */
  readonly id: string;
  /** Where it lay when this was typed. */
  readonly place: string;
  /** When it was last changed, in milliseconds since 1970. */
  readonly atMs: number;
  /** Whether somebody said that the workbook at that place does without them. */
  readonly isRefused: boolean;
  /** By the name of the draft. */
  readonly drafts: Readonly<Record<string, unknown>>;
}

const PREFIX = "vanesheet.drafts.";

/** Under which key of the browser's storage the drafts of a workbook stand. */
export function storageKey(id: string): string {
  return PREFIX + id;
}

/** Returns drafts as they were kept; null where nothing is, or nothing that can be read. */
export function readKept(storage: Storage, id: string): KeptDrafts | null {
  const text = storage.getItem(storageKey(id));
  if (text === null) return null;
  try {
    const { place, atMs, drafts, isRefused = false } = JSON.parse(text) as Partial<KeptDrafts>;
    if (typeof place !== "string" || typeof atMs !== "number" || typeof drafts !== "object" || drafts === null) {
      return null;
    }
    return { id, place, atMs, isRefused, drafts };
  } catch {
    return null; // What cannot be read is no draft.
  }
}

/** Keeps the drafts of a workbook; a workbook without any leaves nothing behind. */
export function writeKept(storage: Storage, { id, ...kept }: KeptDrafts): void {
  if (Object.keys(kept.drafts).length === 0) storage.removeItem(storageKey(id));
  else storage.setItem(storageKey(id), JSON.stringify(kept));
}

/** Returns the drafts of every workbook, the newest first. */
export function listKept(storage: Storage): readonly KeptDrafts[] {
  const keys = Array.from({ length: storage.length }, (_, index) => storage.key(index) ?? "");
  return keys
    .filter((key) => key.startsWith(PREFIX))
    .flatMap((key) => readKept(storage, key.slice(PREFIX.length)) ?? [])
    .sort((one, other) => other.atMs - one.atMs);
}

/** A workbook that was never saved has a name and no place. */
function isUnsaved(place: string): boolean {
  return !/[\\/]/.test(place);
}

/** Whether drafts belong to the workbook at a place, by the place alone: its copy carries the same id elsewhere. */
export function isFromHere(kept: KeptDrafts, place: string): boolean {
  return kept.place === place || isUnsaved(kept.place);
}
