import type { JobFigures } from "./job-figures.js";
import type { OutletRecord } from "./outlet-record.js";

/** Which jobs a roll-up is about; null for any. */
export interface JobFilter {
  /** First and last day of a job's last readings, ISO 8601, both of them in. */
  readonly since: string | null;
  readonly until: string | null;
  /** Names; * stands for any letters, ? for one. Capitals do not matter. */
  readonly technician: string | null;
  /** A job's number or its name, with * and ? as well. */
  readonly job: string | null;
  /** As the workbook names them, with * and ? as well. */
  readonly customer: string | null;
  readonly site: string | null;
}

/** Every job. */
export const EVERY_JOB: JobFilter = {
  since: null,
  until: null,
  technician: null,
  job: null,
  customer: null,
  site: null,
};

/** Whether a text is what a pattern with * and ? says; in time that grows with the lengths, whatever the pattern. */
function matches(pattern: string | null, text: string): boolean {
  if (pattern === null) return true;
  const wanted = pattern.trim().toLowerCase();
  const given = text.trim().toLowerCase();
  let [at, from, star, resume] = [0, 0, -1, 0];
  while (at < given.length) {
    const sign = wanted[from];
    if (sign === "*") {
      star = from;
      resume = at;
      from += 1;
    } else if (sign === "?" || (sign !== undefined && sign === given[at])) {
      at += 1;
      from += 1;
    } else if (star >= 0) {
      resume += 1;
      at = resume;
      from = star + 1;
    } else return false;
  }
  return /^\**$/.test(wanted.slice(from));
}

/** Whether a filter keeps the outlets of a technician. */
export function isOfTechnician({ technician }: Pick<OutletRecord, "technician">, filter: JobFilter): boolean {
  return matches(filter.technician, technician);
}

/** A job without a date is of no day, so that a filter of days leaves it out. */
function isWithin(date: string | null, { since, until }: JobFilter): boolean {
  if (since === null && until === null) return true;
  if (date === null) return false;
  return (since === null || date >= since) && (until === null || date <= until);
}

/** Returns the jobs that a filter keeps, each with the outlets of its technician alone. */
export function filteredJobs(jobs: readonly JobFigures[], filter: JobFilter): readonly JobFigures[] {
  return jobs.flatMap((job) => {
    const isWanted = matches(filter.job, job.jobNumber) || matches(filter.job, job.jobName);
    const isOfBoth = matches(filter.customer, job.customer) && matches(filter.site, job.site);
    if (!isWanted || !isOfBoth || !isWithin(job.date, filter)) return [];
    if (filter.technician === null) return [job];
    const parts = job.parts.filter((part) => isOfTechnician(part, filter));
    return parts.length === 0 ? [] : [{ ...job, parts }];
  });
}
