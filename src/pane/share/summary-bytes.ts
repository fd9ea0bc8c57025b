import type { Finding } from "../../workbook/finding.js";
import type { JobDetails } from "../../workbook/index.js";
import { type RollUp, summaryWorkbook, USUAL_CALIBRATION_MONTHS } from "../../workbook/rollup/index.js";
import { portableCodec } from "../../xlsx/index.js";

interface SummaryAbout {
  readonly fileCount: number;
  readonly units: JobDetails["units"];
  readonly today: Date;
}

/** Writes a roll-up as a workbook. What writes it is large and loads only now. */
export async function summaryBytes(
  rollUp: RollUp,
  findings: readonly Finding[],
  { fileCount, units, today }: SummaryAbout,
): Promise<Uint8Array> {
  const { writeReport } = await import("../../workbook/plan-file/index.js");
  const files = fileCount === 1 ? "1 workbook" : `${fileCount} workbooks`;
  const about = `${files}, rolled up on ${today.toISOString().slice(0, 10)}.`;
  const { plan, values } = summaryWorkbook(rollUp, findings, {
    units,
    about,
    changes: null,
    calibrationMonths: USUAL_CALIBRATION_MONTHS,
  });
  return writeReport(plan, values, portableCodec);
}
