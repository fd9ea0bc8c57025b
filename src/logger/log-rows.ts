import Papa from "papaparse";
import { LOG_LIMITS, LogProblem } from "./log-limits.js";

/** One row of a log, a text for each column. */
export type LogRow = readonly string[];

/** A row that ends in the last piece is looked at again with the next one; fewer pieces mean less of that. */
const MOST_AT_ONCE = 4 * LOG_LIMITS.rowCharacters;

/** What ends a row: a bare carriage return does where no line feed is met. */
function lineEndOf(pieces: () => Iterable<string>): "\n" | "\r" {
  for (const piece of pieces()) {
    if (piece.includes("\n")) return "\n";
    if (piece.includes("\r")) return "\r";
  }
  return "\n";
}

/** Columns set out with blanks have as many between them as it takes; blanks alone hold nothing. */
const withoutBlanks = (row: LogRow): LogRow => row.filter((field) => field !== "" && field !== "\r");

/**
 * Parts a text into rows, one piece at a time: what is held is never more than a few rows' worth.
 *
 * @param pieces - The text from its beginning
 * @param sign - What stands between two columns; for a blank, any number of them does
 * @throws {LogProblem} When a row is longer than any log's, as where a quotation mark is left open
 */
export function* logRows(pieces: () => Iterable<string>, sign: string): Generator<LogRow> {
  const parser = new Papa.Parser({ delimiter: sign, newline: lineEndOf(pieces) });
  const isBlank = sign === " ";
  let rest = "";
  let count = 0;
  for (const piece of pieces()) {
    for (let at = 0; at < piece.length; at += MOST_AT_ONCE) {
      const text = rest + piece.slice(at, at + MOST_AT_ONCE);
      const { data, meta } = parser.parse(text, 0, true);
      for (const row of data) yield isBlank ? withoutBlanks(row) : row;
      count += data.length;
      rest = text.slice(meta.cursor);
      if (rest.length > LOG_LIMITS.rowCharacters) throw tooLong(count + 1);
    }
  }
  if (rest === "") return;
  for (const row of parser.parse(rest, 0, false).data) yield isBlank ? withoutBlanks(row) : row;
}

function tooLong(row: number): LogProblem {
  const limit = LOG_LIMITS.rowCharacters.toLocaleString("en");
  return new LogProblem(
    `Row ${row} is longer than ${limit} characters. A quotation mark may be left open, or the file is not a log.`,
  );
}
