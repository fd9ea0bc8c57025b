import { type Finding, findingOf } from "../finding.js";
import { groupedBy, type JobFigures } from "./job-figures.js";

/**
 * Chooses, of several workbooks of one job, the newest; the others are findings that name it.
 *
 * Jobs are told apart by their number. Newest is the workbook with the latest day of readings; of the same day, the
 * one saved last; saved at the same time, the first by name. A copy, byte for byte, never counts instead of the one that
 * was saved first. A day to come is a slip of the hand and makes no workbook the newest. A workbook without a job number
 * is a job of its own, unless another has the same bytes.
 *
 * @param lastDay - The last day that can be true, ISO 8601; null where nobody knows it
 */
export function chooseNewest(
  jobs: readonly JobFigures[],
  lastDay: string | null,
): {
  readonly value: readonly JobFigures[];
  readonly findings: readonly Finding[];
} {
  const chosen = [...groupedBy(jobs, jobKey).values()].map((ofJob) => {
    const newest = originals(ofJob).reduce((best, job) => (isNewer(job, best, lastDay) ? job : best));
    const others = ofJob.filter((job) => job !== newest);
    return { newest, findings: others.map((other) => superseded(other, newest)) };
  });
  const doubted = jobs.filter((job) => trueDay(job, lastDay) !== job.date).map(dayToCome);
  return {
    value: chosen.map(({ newest }) => newest),
    findings: [...chosen.flatMap(({ findings }) => findings), ...doubted],
  };
}

/** Of workbooks with the same bytes the one that was saved first. */
function originals(ofJob: readonly JobFigures[]): readonly JobFigures[] {
  const keyOf = ({ contentHash, file }: JobFigures) => (contentHash === "" ? `file ${file}` : contentHash);
  return [...groupedBy(ofJob, keyOf).values()].map((alike) =>
    alike.reduce((first, job) =>
      job.modifiedMs < first.modifiedMs || (job.modifiedMs === first.modifiedMs && job.file < first.file) ? job : first,
    ),
  );
}

/** A job's day, null where it is still to come. */
function trueDay({ date }: JobFigures, lastDay: string | null): string | null {
  return date !== null && lastDay !== null && date > lastDay ? null : date;
}

function dayToCome({ file, date }: JobFigures): Finding {
  const problem = `Its last readings are of ${date}, a day that is still to come.`;
  const action = "Correct the date; until then it makes no workbook the newest of its job.";
  return findingOf(file, "day-to-come", "nothing", problem, action);
}

/** What workbooks of one job have in common, and those of no other. */
export function jobKey({
  jobNumber,
  contentHash,
  file,
}: Pick<JobFigures, "jobNumber" | "contentHash" | "file">): string {
  if (jobNumber !== "") return `number ${jobNumber.toLowerCase()}`;
  return contentHash === "" ? `file ${file}` : `content ${contentHash}`;
}

function isNewer(job: JobFigures, than: JobFigures, lastDay: string | null): boolean {
  const [day, otherDay] = [trueDay(job, lastDay) ?? "", trueDay(than, lastDay) ?? ""];
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
    return `its last readings are of ${newest.date ?? "no stated day"}, those here of ${job.date ?? "no stated day"}${sizes}`;
  }
  const saved =
    job.modifiedMs === newest.modifiedMs ? "both are equally new and it is the first by name" : "it was saved later";
  return `${saved}${sizes}`;
}
