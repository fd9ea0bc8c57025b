import { useCallback, useEffect, useRef } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import { usePane } from "./pane-context.js";

/** Changes come in storms while a workbook calculates or an arrow key is held; this long after the last one all rests. */
const REST_MS = 300;

type Stop = () => Promise<void>;

function useRest(
  watch: (heard: () => void) => Promise<Stop>,
  onRest: () => void,
  onFailure: (cause: unknown) => void,
): void {
  const newest = useRef({ onRest, onFailure });
  newest.current = { onRest, onFailure };
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stopping = watch(() => {
      clearTimeout(timer);
      timer = setTimeout(() => newest.current.onRest(), REST_MS);
    });
    stopping.catch((cause: unknown) => newest.current.onFailure(cause));
    return () => {
      clearTimeout(timer);
      stopping.then((stop) => stop()).catch((cause: unknown) => newest.current.onFailure(cause));
    };
  }, [watch]);
}

/**
 * Calls a listener when a host's workbook has come to rest after cells changed, or after another was opened.
 *
 * @param onRest - The newest one given is called
 * @param onFailure - Told when the workbook cannot be watched
 */
export function useHostWatch(host: InteractiveHost, onRest: () => void, onFailure: (cause: unknown) => void): void {
  const watch = useCallback((heard: () => void) => host.watch(heard), [host]);
  useRest(watch, onRest, onFailure);
}

/** Calls a listener when the workbook at hand has come to rest, as long as the tab is in view. */
export function useWatch(onRest: () => void, onFailure: (cause: unknown) => void): void {
  useHostWatch(usePane().host, onRest, onFailure);
}

/**
 * Calls a listener when the selection has come to rest at other cells, as long as the tab is in view.
 *
 * @param onRest - The newest one given is called
 * @param onFailure - Told when the selection cannot be watched
 */
export function useSelectionWatch(onRest: () => void, onFailure: (cause: unknown) => void): void {
  const { host } = usePane();
  const watch = useCallback((heard: () => void) => host.watchSelection(heard), [host]);
  useRest(watch, onRest, onFailure);
}
