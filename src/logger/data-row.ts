import { isNumberLike } from "./log-number.js";
import type { LogRow } from "./log-rows.js";
import { isTimeLike } from "./time-format.js";

/** Whether a row holds anything. */
export const isFilledRow = (row: LogRow): boolean => row.some((field) => field.trim() !== "");

/** A row of data holds a number or a time beside another field. */
export function isDataRow(row: LogRow): boolean {
  const filled = row.filter((field) => field.trim() !== "");
  const telling = filled.filter((field) => isNumberLike(field) || isTimeLike(field)).length;
  return filled.length >= 2 && telling >= 1 && telling * 2 >= filled.length;
}
