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

type BookReader = typeof import("../../workbook/logged/index.js");

const NOT_LOADED = "Logs cannot be read: a part of the pane did not load. Open it again.";

/**
 * Reads a log anew whenever a question is answered. What reads logs loads with the first one, and what reads workbooks
 * with the first log that is one.
 */
export function useLog(file: LogFile, choices: LogChoices): OpenLog {
  const [logger, setLogger] = useState<Logger | null>(null);
  const [books, setBooks] = useState<BookReader | null>(null);
  const [failure, setFailure] = useState<string | null>(null);
  useEffect(() => {
    import("../../logger/index.js").then(setLogger, () => setFailure(NOT_LOADED));
  }, []);
  const isBook = logger?.isPacked(file.bytes) === true;
  useEffect(() => {
    if (isBook) import("../../workbook/logged/index.js").then(setBooks, () => setFailure(NOT_LOADED));
  }, [isBook]);
  const log = useMemo(() => {
    if (logger === null || (isBook && books === null)) return null;
    const open = books === null ? undefined : (bytes: Uint8Array) => books.openLogBook(bytes, file.name);
    return logger.readLog(file.bytes, choices, TextDecoder, open);
  }, [file, logger, books, isBook, choices]);
  return { log, logger, failure };
}
