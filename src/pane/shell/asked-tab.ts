import { keepTab } from "./kept-tab.js";

const EVENT = "vanesheet-tab";

/** Opens a tab of the pane from outside it, as from the ribbon; a pane that is not there yet opens with it. */
export function askForTab(id: string): void {
  keepTab(id);
  dispatchEvent(new CustomEvent(EVENT, { detail: id }));
}

/** Calls the listener when a tab is asked for; returns how to stop. */
export function whenTabIsAsked(listener: (id: string) => void): () => void {
  const heard = (event: Event) => listener(String((event as CustomEvent<unknown>).detail));
  addEventListener(EVENT, heard);
  return () => removeEventListener(EVENT, heard);
}
