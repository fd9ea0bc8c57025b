/*
 * Mounts the pane in a test's page over a host that lives in the test.
 */
import { mountPane } from "../../../src/pane/mount-pane.js";
import { HostError, type InteractiveHost } from "../../../src/workbook/index.js";
import type { CalledHost } from "./open-pane.js";

interface TestWindow {
  readonly callHost: (name: string, args: readonly unknown[]) => Promise<CalledHost>;
  readonly hostKind: InteractiveHost["kind"];
  readonly hostMethods: readonly string[];
  cellsChanged: (sheet: string) => void;
  selectionMoved: () => void;
}

const page = window as unknown as TestWindow;
const listeners = new Set<(sheet: string) => void>();
page.cellsChanged = (sheet) => {
  for (const listener of listeners) listener(sheet);
};
const selectionListeners = new Set<() => void>();
page.selectionMoved = () => {
  for (const listener of selectionListeners) listener();
};

async function call(name: string, args: readonly unknown[]): Promise<unknown> {
  const outcome = await page.callHost(name, args);
  if ("hostError" in outcome) throw new HostError(outcome.hostError);
  if ("entries" in outcome) return new Map(outcome.entries);
  return "bytes" in outcome ? Uint8Array.from(outcome.bytes) : outcome.value;
}

const methods = page.hostMethods.map((name) => [name, (...args: readonly unknown[]) => call(name, args)]);
const host = {
  kind: page.hostKind,
  ...Object.fromEntries(methods),
  async watch(listener: (sheet: string) => void) {
    listeners.add(listener);
    return async () => void listeners.delete(listener);
  },
  async watchSelection(listener: () => void) {
    selectionListeners.add(listener);
    return async () => void selectionListeners.delete(listener);
  },
} as InteractiveHost;

const element = document.getElementById("pane");
if (element === null) throw new Error("The page has no place for the pane.");
mountPane(host, element, () => null);
