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
 * @param keep - Keeps it as it is now, without a pause where the page may be about to close, and tells how that went
 */
export function keepChanges(model: Model, keep: (isAtOnce: boolean) => Promise<void>): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running = 0;
  const keepNow = (isAtOnce: boolean): void => {
    timer = undefined;
    running += 1;
    void keep(isAtOnce).finally(() => {
      running -= 1;
    });
  };
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(keepNow, QUIET_MS, false);
  };
  const soon = (): void => {
    if (timer === undefined && running === 0) return;
    clearTimeout(timer);
    keepNow(true);
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
