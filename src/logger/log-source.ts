import { isDataRow } from "./data-row.js";
import { type AnswerChoice, asked, found, given, isOffered, type LogAnswer, type LogChoices } from "./log-answer.js";
import { headOf, inPieces, type LogContent, wholeOf } from "./log-content.js";
import { LogProblem } from "./log-limits.js";
import { type LogRow, logRows } from "./log-rows.js";
import { logText, type TextDecoderMaker, textHead } from "./log-text.js";

/** So much of a text shows its form: longer than the rows that are looked at are in any log. */
const SAMPLE_CHARACTERS = 200_000;

/** What a log comes from: rows that can be gone through again and again. */
export interface LogSource {
  readonly encoding: LogAnswer;
  readonly sheet: LogAnswer;
  /** Whether its columns stand apart already, numbers as numbers, as in a workbook. */
  readonly isParted: boolean;
  /** The first rows, parted by a sign. */
  readonly sample: (sign: string, most: number) => readonly LogRow[];
  /** All rows. */
  readonly rows: (sign: string) => Iterable<LogRow>;
}

/** The sheets of a workbook, as rows of text; what reads workbooks is loaded with the first one. */
export interface LogBook {
  readonly sheets: readonly { readonly name: string; readonly rows: () => Iterable<LogRow> }[];
}

/** Opens a workbook as a log; handed in, so that reading a text loads nothing that reads workbooks. */
export type LogBookOpener = (bytes: Uint8Array) => LogBook;

/** A sheet with so many rows of data among its first ones is a log. */
const LEAST_ROWS = 2;
const LOOKED_AT = 200;

const NOT_A_WORKBOOK = found("text", "It is a text file.", []);
const IS_WORKBOOK = found("workbook", "It is a workbook.", []);

function first(rows: Iterable<LogRow>, most: number): readonly LogRow[] {
  const sample: LogRow[] = [];
  for (const row of rows) {
    if (sample.length === most) break;
    sample.push(row);
  }
  return sample;
}

/** Whether these are the first bytes of a packed file, such as a workbook. */
export function isPacked(content: LogContent): boolean {
  if (typeof content === "string") return content.startsWith("PK\u0003\u0004");
  const [one, two, three, four] = headOf(inPieces(content), 4);
  return one === 0x50 && two === 0x4b && three === 3 && four === 4;
}

function sheetOf(book: LogBook, chosen: string | undefined): LogAnswer {
  const choices: readonly AnswerChoice[] = book.sheets.map(({ name }) => ({ value: name, label: name }));
  if (isOffered(choices, chosen)) return given(chosen, choices);
  const data = book.sheets.filter(({ rows }) => first(rows(), LOOKED_AT).filter(isDataRow).length >= LEAST_ROWS);
  const [only, another] = data;
  if (only === undefined) return asked("No sheet has rows of times and numbers.", choices);
  if (another !== undefined) return asked("More than one sheet has rows of numbers.", choices);
  return found(only.name, "It is the only sheet with rows of numbers.", choices);
}

function workbookSource(bytes: Uint8Array, chosen: string | undefined, open: LogBookOpener): LogSource {
  const book = open(bytes);
  const sheet = sheetOf(book, chosen);
  const rows = () => book.sheets.find(({ name }) => name === sheet.value)?.rows() ?? [];
  return { encoding: IS_WORKBOOK, sheet, isParted: true, sample: (_, most) => first(rows(), most), rows };
}

/**
 * Returns where the rows of a log come from.
 *
 * @throws {LogProblem} When the file is empty, no text, too large, or a packed file that is no workbook
 */
export function logSource(
  content: LogContent,
  choices: LogChoices,
  Decoder: TextDecoderMaker,
  openBook: LogBookOpener | undefined,
): LogSource {
  if (isPacked(content)) {
    if (openBook === undefined || typeof content === "string") {
      throw new LogProblem("This is a packed file. Save the log as a workbook (.xlsx) or as text (.csv).");
    }
    return workbookSource(wholeOf(inPieces(content)), choices.sheet, openBook);
  }
  const text = logText(content, choices.encoding, Decoder);
  const head = textHead(text, SAMPLE_CHARACTERS + 1);
  if (head.trim() === "") throw new LogProblem("The file is empty.");
  // A binary file has characters that no text has.
  if (head.slice(0, 4096).includes("\0")) throw new LogProblem("This is not text. Save the log as text (.csv).");
  // What is cut off in the middle is no row.
  const whole = head.length <= SAMPLE_CHARACTERS ? head : head.slice(0, Math.max(head.lastIndexOf("\n"), 1));
  return {
    encoding: text.encoding,
    sheet: NOT_A_WORKBOOK,
    isParted: false,
    sample: (sign, most) =>
      first(
        logRows(() => [whole], sign),
        most,
      ),
    rows: (sign) => logRows(text.pieces, sign),
  };
}
