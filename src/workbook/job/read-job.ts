import type { BlockAddress, CellValue, WorkbookHost } from "../host.js";
import { JOB_DETAIL_NAMES, type JobDetails, UNSTATED_JOB } from "./job-details.js";
import { namedBlock } from "./named-cell.js";

export type JobDetail = keyof JobDetails;

/** The job as a workbook states it. */
export interface StatedJob {
  readonly details: JobDetails;
  /** Where each detail stands; a detail without a place has no cell in this workbook. */
  readonly places: ReadonlyMap<JobDetail, BlockAddress>;
  /** What cannot be read, each naming its cell; the detail then counts as not stated. */
  readonly issues: readonly string[];
}

const DETAILS = Object.keys(JOB_DETAIL_NAMES) as readonly JobDetail[];

type ReadDetail = { readonly value: string | number | null } | { readonly wanted: string };

function readDetail(detail: JobDetail, value: CellValue): ReadDetail {
  const isBlank = value === null || (typeof value === "string" && value.trim() === "");
  if (detail === "units") {
    if (isBlank) return { value: "ip" };
    const name = typeof value === "string" ? value.trim().toLowerCase() : "";
    return name === "ip" || name === "si" ? { value: name } : { wanted: "ip or si" };
  }
  if (isBlank) return { value: null };
  if (detail === "jobName") return typeof value === "object" ? { wanted: "a text" } : { value: String(value) };
  return typeof value === "number" ? { value } : { wanted: detail === "dateSerial" ? "a date" : "a number" };
}

function shown(value: CellValue): string {
  return typeof value === "object" && value !== null ? value.error : `“${String(value)}”`;
}

/**
 * Reads the job details of a workbook by their defined names.
 *
 * @returns The job; null where the workbook has no sheet of job details
 */
export async function readJob(host: WorkbookHost): Promise<StatedJob | null> {
  const names = await host.names();
  const places = new Map(
    DETAILS.flatMap((detail) => {
      const block = namedBlock(names.get(JOB_DETAIL_NAMES[detail]) ?? "");
      return block === null ? [] : [[detail, block] as const];
    }),
  );
  if (!places.has("units")) return null;
  const order = [...places];
  const blocks = await host.read(order.map(([, block]) => block));
  const issues: string[] = [];
  const stated = order.map(([detail, { sheet, range }], index) => {
    const value = blocks[index]?.values[0]?.[0] ?? null;
    const read = readDetail(detail, value);
    if ("value" in read) return [detail, read.value] as const;
    issues.push(`${sheet}!${range} holds ${shown(value)}. Enter ${read.wanted} there.`);
    return [detail, UNSTATED_JOB[detail]] as const;
  });
  return { details: { ...UNSTATED_JOB, ...Object.fromEntries(stated) }, places, issues };
}
