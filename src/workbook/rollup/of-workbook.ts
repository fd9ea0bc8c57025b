import { isoDate } from "../../xlsx/index.js";
import { type StatedJob, UNSTATED_JOB } from "../job/index.js";
import type { OutletRecord } from "./outlet-record.js";

/** What every outlet of a workbook shares. */
export interface OfWorkbook
  extends Pick<
    OutletRecord,
    "instrument" | "instrumentSerial" | "calibratedOn" | "calibrationDueOn" | "customer" | "site"
  > {
  readonly job: StatedJob | null;
  readonly usesDate1904: boolean;
}

/** What a workbook states for all its outlets. */
export function ofWorkbook(job: StatedJob | null, usesDate1904: boolean): OfWorkbook {
  const details = job?.details ?? UNSTATED_JOB;
  const { instrument, instrumentSerial, customer, site } = details;
  const dayOf = (serial: number | null) => (serial === null ? null : (isoDate(serial, usesDate1904) ?? null));
  return {
    job,
    usesDate1904,
    instrument: instrument ?? "",
    instrumentSerial: instrumentSerial ?? "",
    calibratedOn: dayOf(details.calibratedSerial),
    calibrationDueOn: dayOf(details.calibrationDueSerial),
    customer: customer ?? "",
    site: site ?? "",
  };
}
