import { isoDate } from "../../../xlsx/index.js";
import { type NamedSheets, nameTables } from "./name-tables.js";

/** A meter of a workbook's table of instruments, and the last day on which its calibration holds. */
export interface ListedMeter {
  /** The place of its sheet in the list of sheets. */
  readonly sheet: number;
  readonly row: number;
  /** Of the day on which it is due. */
  readonly column: number;
  readonly name: string;
  readonly serial: string;
  readonly dueSerial: number;
}

/** The meters that a workbook lists with the day on which their calibration is due. */
export function listedMeters(workbook: NamedSheets): readonly ListedMeter[] {
  return nameTables(workbook, "instruments").flatMap(({ sheet, columns, names }) => {
    const column = columns.get("calibration due");
    const serials = columns.get("serial number");
    return names.flatMap(({ row, text }) => {
      const due = column === undefined ? null : workbook.valueAt(sheet, row, column);
      if (typeof due !== "number" || column === undefined) return [];
      const serial = serials === undefined ? null : workbook.valueAt(sheet, row, serials);
      const spelled = typeof serial === "string" || typeof serial === "number" ? String(serial).trim() : "";
      return [{ sheet, row, column, name: text.trim(), serial: spelled, dueSerial: due }];
    });
  });
}

/** Says that a meter was due before the day on which its calibration is judged. */
export function expiredSentence(meter: string, dueSerial: number, judged: string, usesDate1904: boolean): string {
  return `The calibration of ${meter} was due on ${isoDate(dueSerial, usesDate1904) ?? dueSerial} and had expired ${judged}.`;
}

/** What to do about it. */
export const EXPIRED_ACTION = "Measure with a meter whose calibration holds, or enter the calibration that held.";
