import { useEffect, useRef } from "preact/hooks";
import { usePane } from "./pane-context.js";

/** Changes come in storms while a workbook calculates; this long after the last one it is at rest. */
const REST_MS = 300;

/**
 * Calls a listener when the workbook has come to rest after cells changed, as long as the tab is in view.
 *
 * @param onRest - The newest one given is called
 * @param onFailure - Told when the workbook cannot be watched
 */
export function useWatch(onRest: () => void, onFailure: (cause: unknown) => void): void {
  const { host } = usePane();
  const newest = useRef({ onRest, onFailure });
  newest.current = { onRest, onFailure };
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const stopping = host.watch(() => {
      clearTimeout(timer);
      timer = setTimeout(() => newest.current.onRest(), REST_MS);
    });
    stopping.catch((cause: unknown) => newest.current.onFailure(cause));
    return () => {
      clearTimeout(timer);
      stopping.then((stop) => stop()).catch((cause: unknown) => newest.current.onFailure(cause));
    };
  }, [host]);
}
