/**
 * Bounds on what a log may ask of us, all far above what an instrument writes: a day at ten a second is 864,000 rows.
 * Chosen by us, no published source.
 */
export const LOG_LIMITS = {
  /** The file itself. */
  fileBytes: 256 * 2 ** 20,
  rows: 1_500_000,
  /** Characters of one row. */
  rowCharacters: 65_536,
  columns: 256,
  /** Characters of a field that may be a number or a time; a longer one is neither. */
  fieldCharacters: 64,
} as const;

/** Thrown where a log cannot be read, whatever is chosen; the message says why and what to do. */
export class LogProblem extends Error {
  constructor(message: string) {
    super(message);
    this.name = "LogProblem";
  }
}

/** Refuses a file larger than any log, before its bytes are read where that is possible. */
export function requireLogSize(bytes: number): void {
  if (bytes <= LOG_LIMITS.fileBytes) return;
  throw new LogProblem(`The file is larger than ${LOG_LIMITS.fileBytes / 2 ** 20} MB. Cut the log into pieces.`);
}
