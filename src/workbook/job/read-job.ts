import type { WorkbookHost } from "../host.js";
import { namesOf } from "../source/host-source.js";
import { jobPlaces, type StatedJob, statedJob } from "./stated-job.js";

/**
 * Reads the job details of the workbook that a host has open, by their defined names: two batches.
 *
 * @returns The job; null where the workbook has no sheet of job details
 */
export async function readJob(host: WorkbookHost): Promise<StatedJob | null> {
  const places = jobPlaces(namesOf(await host.names()));
  if (!places.has("units")) return null;
  const addresses = [...places.values()];
  const blocks = await host.read(addresses);
  const values = new Map(addresses.map((address, index) => [address, blocks[index]?.values[0]?.[0] ?? null]));
  return statedJob(places, (at) => values.get(at) ?? null, false);
}
