import { HostError } from "../../workbook/index.js";

/** How often Excel is asked again while a person edits a cell, and for how long. */
const AGAIN_MS = 400;
const LONGEST_WAIT_MS = 120_000;

const listeners = new Set<(isWaiting: boolean) => void>();
let waitingCount = 0;

function become(count: number): void {
  const wasWaiting = waitingCount > 0;
  waitingCount = count;
  if (wasWaiting !== count > 0) for (const listener of listeners) listener(count > 0);
}

/** Calls the listener when a request begins to wait for the end of an edit and when none waits any more. */
export function watchWaiting(listener: (isWaiting: boolean) => void): () => void {
  listeners.add(listener);
  listener(waitingCount > 0);
  return () => void listeners.delete(listener);
}

/** Returns the code of an error that Excel sent, null for any other. */
export function excelErrorCode(thrown: unknown): string | null {
  if (typeof thrown !== "object" || thrown === null || !("code" in thrown)) return null;
  return typeof thrown.code === "string" ? thrown.code : null;
}

/** Whether Excel refused something because a person has a cell open for editing; it then has done no part of it. */
export function isRefusedForEdit(thrown: unknown): boolean {
  const cause = thrown instanceof HostError ? thrown.cause : thrown;
  return excelErrorCode(cause) === "InvalidOperationInCellEditMode";
}

/**
 * Does something in Excel, again and again while a person edits a cell.
 *
 * Excel's own `delayForCellEdit` waits in silence, and only in an Excel that knows it; here the pane can say what it
 * waits for.
 *
 * @throws Whatever the last try threw, also when the edit takes too long
 */
export async function afterCellEdit<Result>(attempt: () => Promise<Result>): Promise<Result> {
  const untilMs = Date.now() + LONGEST_WAIT_MS;
  let isWaiting = false;
  try {
    for (;;) {
      try {
        return await attempt();
      } catch (thrown) {
        if (!isRefusedForEdit(thrown) || Date.now() > untilMs) throw thrown;
      }
      if (!isWaiting) become(waitingCount + 1);
      isWaiting = true;
      await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
    }
  } finally {
    if (isWaiting) become(waitingCount - 1);
  }
}
