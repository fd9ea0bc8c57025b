import { type BlockEdit, HostError, type WorkbookHost } from "../host.js";
import type { JobDetails } from "./job-details.js";
import { readJob } from "./read-job.js";
import type { JobDetail } from "./stated-job.js";

/**
 * Writes changed job details into the workbook, in one batch; a detail that is null empties its cell.
 *
 * @throws {HostError} When the workbook has no cell for one of them; nothing is written then
 */
export async function writeJob(host: WorkbookHost, changes: Partial<JobDetails>): Promise<void> {
  const job = await readJob(host);
  if (job === null)
    throw new HostError("This workbook has no sheet of job details. Add a sheet from a template first.");
  const edits = Object.entries(changes).map(([detail, value]): BlockEdit => {
    const address = job.places.get(detail as JobDetail);
    if (address === undefined) {
      throw new HostError(`The job's sheet has lost its cell for ${detail}. Nothing was written.`);
    }
    return { address, cells: [[value]] };
  });
  if (edits.length > 0) await host.write(edits);
}
