import type { EntryPlace } from "./entry-store.js";

/** What stood in the editor of a cell, and was not entered. */
export interface EntryDraft extends EntryPlace {
  readonly text: string;
}

/** Written with each key, and at once: a page that closes waits for nothing. */
const KEY = "vanesheet-entry";

export function keepEntryDraft({ sheetId, col, row }: EntryPlace, text: string): void {
  try {
    const draft: EntryDraft = { sheetId, col, row, text };
    localStorage.setItem(KEY, JSON.stringify(draft));
  } catch {
    // A browser that keeps nothing has said so already, under the grid.
  }
}

export function dropEntryDraft(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // Nothing was kept there.
  }
}

/** Returns what was not entered when the page closed, null where there is none. */
export function readEntryDraft(): EntryDraft | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "null");
    const draft = kept as Partial<EntryDraft> | null;
    const isWhole = typeof draft?.sheetId === "string" && typeof draft.text === "string";
    return isWhole && Number.isInteger(draft.col) && Number.isInteger(draft.row) ? (draft as EntryDraft) : null;
  } catch {
    return null;
  }
}
