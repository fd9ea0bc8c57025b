import { del, get, set } from "idb-keyval";

const KEY = "vanesheet-workbook";

/** What the browser keeps between two visits. */
export interface StoredWorkbook {
  readonly title: string;
  /** In the engine's own form. */
  readonly data: object;
}

/** Returns the workbook of the last visit, null where there is none. */
export async function readStored(): Promise<StoredWorkbook | null> {
  return (await get<StoredWorkbook>(KEY)) ?? null;
}

/** Keeps the workbook for the next visit. */
export async function keepStored(workbook: StoredWorkbook): Promise<void> {
  await set(KEY, workbook);
}

/** Forgets what was kept. */
export async function forgetStored(): Promise<void> {
  await del(KEY);
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
