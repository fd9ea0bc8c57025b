import { type LogBook, LogProblem } from "../../logger/index.js";
import {
  type ArchiveCodec,
  type Cell,
  cellsOf,
  isoDate,
  openWorkbook,
  PLAIN_STYLE,
  readSheet,
  type Sheet,
  type Workbook,
  WorkbookFileError,
} from "../../xlsx/index.js";

const DAY_MS = 86_400_000;

const digits = (value: number, count: number) => String(value).padStart(count, "0");

function clockText(milliseconds: number): string {
  const seconds = Math.floor(milliseconds / 1000);
  const rest = milliseconds % 1000;
  const clock = `${digits(Math.floor(seconds / 3600), 2)}:${digits(Math.floor(seconds / 60) % 60, 2)}:${digits(seconds % 60, 2)}`;
  return rest === 0 ? clock : `${clock}.${digits(rest, 3)}`;
}

/** Spells a moment that a cell keeps as days; the cell's format says whether the time of day belongs to it. */
function momentText(serial: number, numberFormat: string, usesDate1904: boolean): string {
  const milliseconds = Math.round(serial * DAY_MS);
  const clock = ((milliseconds % DAY_MS) + DAY_MS) % DAY_MS;
  if (milliseconds >= 0 && milliseconds < DAY_MS) return clockText(clock);
  const date = isoDate((milliseconds - clock) / DAY_MS, usesDate1904);
  if (date === undefined) return String(serial);
  return clock === 0 && !/[hs]/i.test(numberFormat) ? date : `${date} ${clockText(clock)}`;
}

function cellText({ styles, usesDate1904 }: Workbook, { value, style }: Cell): string {
  if (value === null) return "";
  if (typeof value === "object") return value.error;
  if (typeof value !== "number") return String(value);
  const { numberKind, numberFormat } = styles[style] ?? PLAIN_STYLE;
  return numberKind === "date" ? momentText(value, numberFormat, usesDate1904) : String(value);
}

/** Goes through the rows of a sheet, those that are blank too, so that a row's number is the sheet's own. */
function* rowsOf(sheet: Sheet): Generator<readonly string[]> {
  let row = 1;
  let fields: string[] = [];
  for (const cell of cellsOf(sheet)) {
    for (; row < cell.row; row += 1) {
      yield fields;
      fields = [];
    }
    while (fields.length < cell.column - 1) fields.push("");
    fields.push(cellText(sheet.workbook, cell));
  }
  yield fields;
}

/** What is wrong with a workbook, without the name of the file, which whoever asks knows. */
function problemOf({ place, problem, advice }: WorkbookFileError, fileName: string): LogProblem {
  const part = place.startsWith(`${fileName}, `) ? place.slice(fileName.length + 2) : "";
  return new LogProblem(part === "" ? `The file ${problem}. ${advice}` : `The file's ${part} ${problem}. ${advice}`);
}

/** Does what reads a workbook; what is wrong with the file is a problem of the log. */
function asLog<T>(fileName: string, read: () => T): T {
  try {
    return read();
  } catch (thrown) {
    throw thrown instanceof WorkbookFileError ? problemOf(thrown, fileName) : thrown;
  }
}

/**
 * Opens a workbook as a log: the rows of its sheets as text, numbers with a point, dates and times of day by their form.
 *
 * @param bytes - The file
 * @param fileName - As it is named in what the file's own messages say
 * @param codec - Unpacks it, where the host has something faster
 * @throws {LogProblem} When it is no workbook, damaged or unsafe, here or when its rows are asked for
 */
export function openLogBook(bytes: Uint8Array, fileName: string, codec?: ArchiveCodec): LogBook {
  const workbook = asLog(fileName, () => openWorkbook(bytes, fileName, codec));
  const sheets = workbook.sheets.filter(({ kind }) => kind === "worksheet");
  return {
    sheets: sheets.map(({ name }) => ({ name, rows: () => rowsOf(asLog(fileName, () => readSheet(workbook, name))) })),
  };
}
