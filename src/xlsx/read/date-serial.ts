const DAY_MS = 86_400_000;
/** Days from 30 December 1899, day 0 of the 1900 system from March 1900 on, to 1 January 1970. */
const EPOCH_1900_DAYS = 25_569;
/** Days between the two systems. */
const DATE_1904_DAYS = 1_462;
/** The 1900 system counts a 29 February 1900 that never was, so days before 1 March 1900 are one less. */
const FIRST_TRUE_DAY = 61;
/** 31 December 9999. */
const LAST_DAY = 2_958_465;

/**
 * Turns a date as ISO 8601 spells it into the number that the spreadsheet program keeps for it.
 *
 * @param text - Such as 2024-05-01, 2024-05-01T10:30:00 or 10:30:00
 * @param usesDate1904 - Whether the workbook counts from 1904
 * @returns Days; NaN when the text is no date
 * @source ECMA-376-1:2016, section 18.17.4
 */
export function dateSerial(text: string, usesDate1904: boolean): number {
  const match = /^(\d{4}-\d{2}-\d{2})?T?(?:(\d{2}):(\d{2})(?::(\d{2}(?:\.\d+)?))?)?Z?$/.exec(text.trim());
  if (match === null || (match[1] === undefined && match[2] === undefined)) return Number.NaN;
  const timeDays = (Number(match[2] ?? 0) * 3600 + Number(match[3] ?? 0) * 60 + Number(match[4] ?? 0)) / 86_400;
  if (match[1] === undefined) return timeDays;
  const days = Date.parse(`${match[1]}T00:00:00Z`) / DAY_MS + EPOCH_1900_DAYS;
  if (usesDate1904) return days - DATE_1904_DAYS + timeDays;
  return (days < FIRST_TRUE_DAY ? days - 1 : days) + timeDays;
}

/** Days since 1 January 1970. */
let spelledLast = { day: 0, text: "1970-01-01" };

/**
 * Spells the day that a spreadsheet program's number stands for, as ISO 8601 does.
 *
 * @param serial - Days as the cell keeps them; a part of a day is cut off
 * @param usesDate1904 - Whether the workbook counts from 1904
 * @returns Such as 2024-05-01; undefined for a number that is no day of the years 1900 to 9999
 * @source ECMA-376-1:2016, section 18.17.4
 * @example
 * isoDate(45413, false) // => "2024-05-01"
 */
export function isoDate(serial: number, usesDate1904: boolean): string | undefined {
  const days = Math.floor(serial);
  const since1900 = usesDate1904 ? days + DATE_1904_DAYS : days;
  // Day 60 is the 29 February 1900 that never was.
  if (!(since1900 >= 1 && since1900 <= LAST_DAY) || since1900 === FIRST_TRUE_DAY - 1) return undefined;
  const true1900 = since1900 < FIRST_TRUE_DAY ? since1900 + 1 : since1900;
  const sinceEpoch = true1900 - EPOCH_1900_DAYS;
  // A list says the same day in row after row.
  if (sinceEpoch !== spelledLast.day) {
    spelledLast = { day: sinceEpoch, text: new Date(sinceEpoch * DAY_MS).toISOString().slice(0, 10) };
  }
  return spelledLast.text;
}
