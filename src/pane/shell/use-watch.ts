import { useCallback, useEffect, useId, useRef } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import { triedAgain } from "./message.js";
import { usePane } from "./pane-context.js";
import type { StandingProblems } from "./standing-problems.js";
import { tryUntil } from "./try-until.js";

/** Changes come in storms while a workbook calculates or an arrow key is held; this long after the last one all rests. */
const REST_MS = 300;

type Stop = () => Promise<void>;

/**
 * Watches something of the workbook, and tries again for as long as the host refuses.
 *
 * @param onFailure - Told why it is not watched, and null once it is
 * @returns How to stop
 */
export function keepWatching(
  watch: (heard: () => void) => Promise<Stop>,
  heard: () => void,
  onFailure: (cause: unknown) => void,
): () => void {
  let stopWatching: Stop | null = null;
  let isOver = false;
  const end = (stop: Stop) => void stop().catch(() => undefined); // What is gone already needs no ending.
  const stopTrying = tryUntil(
    async () => {
      const stop = await watch(heard);
      if (isOver) end(stop);
      return stop;
    },
    (stop) => {
      stopWatching = stop;
      onFailure(null);
    },
    onFailure,
  );
  return () => {
    isOver = true;
    stopTrying();
    if (stopWatching !== null) end(stopWatching);
  };
}

function useRest(watch: (heard: () => void) => Promise<Stop>, onRest: () => void, problems: StandingProblems): void {
  const name = useId();
  const newest = useRef(onRest);
  newest.current = onRest;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let wasRefused = false;
    const rest = () => {
      clearTimeout(timer);
      timer = setTimeout(() => newest.current(), REST_MS);
    };
    const stop = keepWatching(watch, rest, (cause) => {
      problems.report(name, cause === null ? null : triedAgain(cause));
      // What changed while nobody watched was not heard.
      if (cause === null && wasRefused) rest();
      wasRefused = cause !== null;
    });
    return () => {
      clearTimeout(timer);
      problems.report(name, null);
      stop();
    };
  }, [watch, problems, name]);
}

/**
 * Calls a listener when a host's workbook has come to rest after cells changed, or after another was opened.
 *
 * @param onRest - The newest one given is called
 * @param problems - Told while the workbook cannot be watched
 */
export function useHostWatch(host: InteractiveHost, onRest: () => void, problems: StandingProblems): void {
  const watch = useCallback((heard: () => void) => host.watch(heard), [host]);
  useRest(watch, onRest, problems);
}

/** Calls a listener when the workbook at hand has come to rest, as long as the tab is in view. */
export function useWatch(onRest: () => void): void {
  const { host, problems } = usePane();
  useHostWatch(host, onRest, problems);
}

/** Calls a listener when the selection has come to rest at other cells, as long as the tab is in view. */
export function useSelectionWatch(onRest: () => void): void {
  const { host, problems } = usePane();
  const watch = useCallback((heard: () => void) => host.watchSelection(heard), [host]);
  useRest(watch, onRest, problems);
}
