import type { Model } from "@odoo/o-spreadsheet";
import { watchChanges } from "../../engine/index.js";
import type { WorkbookKeeper } from "./keep-workbook.js";

/** Long enough that fast typing is one write, short enough that a closed tab loses nothing. */
const QUIET_MS = 250;

/**
 * Keeps the workbook in the browser after each change; returns how to stop.
 *
 * @param keeper - Keeps it as it is now, without a pause where the page may be about to close, and tells how that went
 */
export function keepChanges(
  model: Model,
  { changes, owesFile }: Pick<WorkbookKeeper, "changes" | "owesFile">,
): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running = 0;
  const keepNow = (isAtOnce: boolean): void => {
    timer = undefined;
    running += 1;
    void changes(isAtOnce).finally(() => {
      running -= 1;
    });
  };
  const later = (): void => {
    clearTimeout(timer);
    timer = setTimeout(keepNow, QUIET_MS, false);
  };
  const soon = (): void => {
    if (timer === undefined && running === 0 && !owesFile()) return;
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
