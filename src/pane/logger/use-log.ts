import { useEffect, useMemo, useState } from "preact/hooks";
import type { LogChoices, ReadLog } from "../../logger/index.js";

type Logger = typeof import("../../logger/index.js");

/** A log file as chosen. */
export interface LogFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** A log as read, with what takes a sweep from it; null until a file is chosen and its reader has loaded. */
export interface OpenLog {
  readonly log: ReadLog | null;
  readonly logger: Logger | null;
  readonly failure: string | null;
}

/** Reads a log anew whenever another file is chosen or a finding is answered. What reads logs loads with the first one. */
export function useLog(file: LogFile | null, choices: LogChoices): OpenLog {
  const [logger, setLogger] = useState<Logger | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  const isWanted = file !== null;
  useEffect(() => {
    if (!isWanted || logger !== null) return;
    import("../../logger/index.js").then(setLogger, () =>
      setFailure("Logs cannot be read: a part of the pane did not load. Open it again."),
    );
  }, [isWanted, logger]);
  const log = useMemo(
    () => (file === null || logger === null ? null : logger.readLog(file.bytes, choices, TextDecoder)),
    [file, logger, choices],
  );
  return { log, logger, failure };
}
