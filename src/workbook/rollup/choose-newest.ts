import { type Finding, findingOf } from "../finding.js";
import { groupedBy, type JobFigures } from "./job-figures.js";

/**
 * Chooses, of several workbooks of one job, the newest; the others are findings that name it.
 *
 * Jobs are told apart by their number. Newest is the workbook with the latest day of readings; of the same day, the
 * one saved last; saved at the same time, the first by name. A workbook without a job number is a job of its own,
 * unless another has the same bytes.
 */
export function chooseNewest(jobs: readonly JobFigures[]): {
  readonly value: readonly JobFigures[];
  readonly findings: readonly Finding[];
} {
  const chosen = [...groupedBy(jobs, jobKey).values()].map((ofJob) => {
    const newest = ofJob.reduce((best, job) => (isNewer(job, best) ? job : best));
    const others = ofJob.filter((job) => job !== newest);
    return { newest, findings: others.map((other) => superseded(other, newest)) };
  });
  return { value: chosen.map(({ newest }) => newest), findings: chosen.flatMap(({ findings }) => findings) };
}

function jobKey({ jobNumber, contentHash, file }: JobFigures): string {
  if (jobNumber !== "") return `number ${jobNumber.toLowerCase()}`;
  return contentHash === "" ? `file ${file}` : `content ${contentHash}`;
}

function isNewer(job: JobFigures, than: JobFigures): boolean {
  const [day, otherDay] = [job.date ?? "", than.date ?? ""];
  if (day !== otherDay) return day > otherDay;
  if (job.modifiedMs !== than.modifiedMs) return job.modifiedMs > than.modifiedMs;
  return job.file < than.file;
}

const outletsOf = ({ parts }: JobFigures) => parts.reduce((sum, { tally }) => sum + tally.outlets, 0);

function superseded(job: JobFigures, newest: JobFigures): Finding {
  const name = job.jobNumber === "" ? "this job" : `job ${job.jobNumber}`;
  const problem = `For ${name} ${newest.file} counts instead: ${reason(job, newest)}.`;
  // That a newer workbook counts is as it should be.
  return { ...findingOf(job.file, "superseded", "workbook", problem, ""), severity: "warning" };
}

function reason(job: JobFigures, newest: JobFigures): string {
  if (job.contentHash !== "" && job.contentHash === newest.contentHash) return "this file is a copy, byte for byte";
  if (JSON.stringify(job.parts) === JSON.stringify(newest.parts)) return "both hold the same figures";
  const [own, others] = [outletsOf(job), outletsOf(newest)];
  const sizes =
    own === others
      ? ""
      : ` (this file lists ${own} outlets, that one ${others}; a second part of the job needs a job number of its own)`;
  if (job.date !== newest.date) {
    return `its last readings are of ${newest.date}, those here of ${job.date ?? "no stated day"}${sizes}`;
  }
  const saved =
    job.modifiedMs === newest.modifiedMs ? "both are equally new and it is the first by name" : "it was saved later";
  return `${saved}${sizes}`;
}
