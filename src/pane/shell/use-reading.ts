import { useCallback, useEffect, useId, useRef, useState } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import { triedAgain } from "./message.js";
import type { StandingProblems } from "./standing-problems.js";
import { tryUntil } from "./try-until.js";
import { useHostWatch } from "./use-watch.js";

/** Something read from the workbook: unknown until the first reading is in. */
export interface Reading<Value> {
  readonly known: { readonly value: Value } | null;
  /** Reads again; the promise fails where the reading does. */
  readonly reload: () => Promise<void>;
}

/**
 * Reads something of the workbook: at first, again whenever cells changed, and until it succeeds where it fails. What is
 * wrong stands above the tabs meanwhile; what was known before stays known.
 *
 * @param read - Reads it; a new function reads anew
 */
export function useReading<Value>(
  host: InteractiveHost,
  problems: StandingProblems,
  read: () => Promise<Value>,
): Reading<Value> {
  const name = useId();
  const [known, setKnown] = useState<{ readonly value: Value } | null>(null);
  const turn = useRef(0);
  const stopTrying = useRef<() => void>(() => undefined);

  /** Whatever is asked for later counts; a reading that comes in after a later one is dropped. */
  const readOnce = useCallback(async () => {
    turn.current += 1;
    const own = turn.current;
    const value = await read();
    if (own !== turn.current) return;
    problems.report(name, null);
    setKnown({ value });
  }, [read, problems, name]);

  const readUntilKnown = useCallback(() => {
    stopTrying.current();
    stopTrying.current = tryUntil(
      readOnce,
      () => undefined,
      (cause) => problems.report(name, triedAgain(cause)),
    );
  }, [readOnce, problems, name]);

  useEffect(() => {
    readUntilKnown();
    return () => {
      turn.current += 1;
      stopTrying.current();
      problems.report(name, null);
    };
  }, [readUntilKnown, problems, name]);
  useHostWatch(host, readUntilKnown, problems);
  return { known, reload: readOnce };
}
