import { type CheckReport, checkHost, type InteractiveHost } from "../../workbook/index.js";
import { keepWatching } from "../shell/use-watch.js";

/** What is known of the workbook's findings. */
export interface FindingsState {
  /** Null until the first check is through. */
  readonly report: CheckReport | null;
  readonly isChecking: boolean;
  /** What kept the last check from its end; the report is then the one before. */
  readonly failure: unknown;
  /** Why changes are not heard of now; null while they are. */
  readonly watchFailure: unknown;
}

/** The findings of one workbook, checked again when its cells come to rest after a change. */
export interface FindingsStore {
  current(): FindingsState;
  /**
   * Calls the listener on every change of the state. The workbook is watched while there is one; the first one starts a
   * check, since what changed before was not heard.
   */
  subscribe(listener: () => void): () => void;
  check(): Promise<void>;
}

/** Changes come in storms; and a check that takes long is not to follow every one of them at once. */
const REST_MS = 1000;
const LONGEST_REST_MS = 5000;
const REST_PER_CHECK = 2;

/** Returns the store over a host. Two checks never run at once: what changes meanwhile is checked after it. */
export function findingsStore(host: InteractiveHost, now: () => number): FindingsStore {
  const listeners = new Set<() => void>();
  let state: FindingsState = { report: null, isChecking: false, failure: null, watchFailure: null };
  let running: Promise<void> | null = null;
  let isStale = false;
  let checkMs = 0;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopWatching: (() => void) | null = null;
  /** Counts the workbooks that came into view: what a check finds in one is not told of the next. */
  let workbook = 0;

  const become = (next: Partial<FindingsState>) => {
    state = { ...state, ...next };
    for (const listener of listeners) listener();
  };

  const checkOnce = async () => {
    const startMs = now();
    const own = workbook;
    const tell = (found: Partial<FindingsState>) => {
      if (own === workbook) become(found);
    };
    try {
      tell({ report: await checkHost(host), failure: null });
    } catch (failure) {
      tell({ failure });
    }
    checkMs = now() - startMs;
  };

  const perform = async () => {
    become({ isChecking: true });
    do {
      isStale = false;
      await checkOnce();
    } while (isStale);
    running = null;
    become({ isChecking: false });
  };

  const check = (): Promise<void> => {
    isStale = true;
    running ??= perform();
    return running;
  };

  const onChange = () => {
    clearTimeout(timer);
    if (listeners.size === 0) return;
    timer = setTimeout(() => void check(), Math.min(Math.max(REST_MS, REST_PER_CHECK * checkMs), LONGEST_REST_MS));
  };

  const startWatching = (): (() => void) => {
    const stopCells = keepWatching(
      (heard) => host.watch(heard),
      onChange,
      (watchFailure) => {
        const wasUnheard = state.watchFailure !== null;
        become({ watchFailure });
        // What changed while nobody watched was not heard.
        if (watchFailure === null && wasUnheard) onChange();
      },
    );
    const stopWorkbook = host.watchWorkbook?.(() => {
      workbook += 1;
      become({ report: null, failure: null });
      void check();
    });
    void check();
    return () => {
      stopCells();
      stopWorkbook?.();
    };
  };

  return {
    current: () => state,
    check,
    subscribe(listener) {
      listeners.add(listener);
      stopWatching ??= startWatching();
      return () => {
        listeners.delete(listener);
        if (listeners.size > 0) return;
        clearTimeout(timer);
        stopWatching?.();
        stopWatching = null;
      };
    },
  };
}
