import { dateSerial, isoDate, parseRange } from "../../../xlsx/index.js";
import { jobOf } from "../../job/index.js";
import type { WorkbookIndex } from "../formulas/workbook-index.js";
import { EXPIRED_ACTION, expiredSentence, listedMeters } from "../listed/listed-meters.js";
import { type Draft, oneCell } from "../support/draft.js";

/** The day on which calibrations are judged, and how a sentence calls it. */
interface JudgedDay {
  readonly serial: number;
  readonly words: string;
}

function judgedDay(day: number | null, today: string, usesDate1904: boolean): JudgedDay | undefined {
  if (day !== null) return { serial: day, words: `on the day measured, ${isoDate(day, usesDate1904) ?? day}` };
  const serial = dateSerial(today, usesDate1904);
  return serial === undefined ? undefined : { serial, words: `today, ${today}; the job has no day measured` };
}

function expired(
  sheet: number,
  [row, column]: readonly [number, number],
  meter: string,
  due: number,
  day: JudgedDay,
  usesDate1904: boolean,
): readonly Draft[] {
  if (due >= day.serial) return [];
  return [
    {
      kind: "calibration-expired",
      severity: "warning",
      sheet,
      range: oneCell(row, column),
      problem: expiredSentence(meter, due, day.words, usesDate1904),
      action: EXPIRED_ACTION,
    },
  ];
}

/**
 * Meters whose calibration had expired: that of the job, and those of its table of instruments.
 *
 * @param today - ISO 8601; it counts where the job does not say when it was measured
 */
export function checkCalibration(index: WorkbookIndex, today: string): readonly Draft[] {
  const { workbook, sheets } = index;
  const { usesDate1904 } = workbook;
  const job = jobOf(workbook);
  const day = judgedDay(job?.details.dateSerial ?? null, today, usesDate1904);
  if (day === undefined) return [];
  const place = job?.places.get("calibrationDueSerial");
  const cell = parseRange(place?.range ?? "");
  const due = job?.details.calibrationDueSerial ?? null;
  const ofJob =
    place === undefined || cell === undefined || due === null
      ? []
      : expired(
          sheets.findIndex(({ name }) => name === place.sheet),
          [cell.firstRow, cell.firstColumn],
          [job?.details.instrument, job?.details.instrumentSerial].filter(Boolean).join(", ") || "the meter",
          due,
          day,
          usesDate1904,
        );
  const listed = listedMeters(index).flatMap(({ sheet, row, column, name, dueSerial }) =>
    expired(sheet, [row, column], name, dueSerial, day, usesDate1904),
  );
  return [...ofJob, ...listed];
}
