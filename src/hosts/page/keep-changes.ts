import type { Model } from "@odoo/o-spreadsheet";
import { watchChanges } from "../../engine/index.js";

/** Long enough that fast typing is one write, short enough that a closed tab loses nothing. */
const QUIET_MS = 250;

/** What the person is told about keeping. */
export type KeepState =
  /** `isInFile` says whether the file holds all of it too. */
  { readonly kind: "kept"; readonly isInFile: boolean } | { readonly kind: "failed"; readonly reason: string };

/**
 * Keeps the workbook in the browser after each change; returns how to stop.
 *
 * @param keep - Keeps it as it is now, and tells how that went
 */
export function keepChanges(model: Model, keep: () => Promise<void>): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const keepNow = (): void => {
    timer = undefined;
    void keep();
  };
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(keepNow, QUIET_MS);
  };
  const soon = (): void => {
    if (timer === undefined) return;
    clearTimeout(timer);
    keepNow();
  };
  const stopWatching = watchChanges(model, later);
  document.addEventListener("visibilitychange", soon);
  window.addEventListener("pagehide", soon);
  return () => {
    stopWatching();
    clearTimeout(timer);
    document.removeEventListener("visibilitychange", soon);
    window.removeEventListener("pagehide", soon);
  };
}
