import { type GroupResult, groupResult } from "./group-result.js";
import { groupedBy, type JobFigures } from "./job-figures.js";
import { mergedTally } from "./tally.js";

/** What one visit to a job gave. */
export interface Visit {
  readonly date: string | null;
  readonly file: string;
  readonly result: GroupResult;
}

/** A job that was visited more than once, or whose outlets were read as found and as left. */
export interface VisitedJob {
  readonly jobNumber: string;
  readonly jobName: string;
  readonly visits: number;
  /** Null where there was only one. */
  readonly first: Visit | null;
  /** The one that counts. */
  readonly last: Visit;
}

function visitOf(job: JobFigures): Visit {
  const { date, file, parts } = job;
  return { date, file, result: groupResult(mergedTally(parts.map(({ tally }) => tally))) };
}

/**
 * Compares the first visit to a job with the one that counts. Each day of readings is a visit, by the workbook that was
 * saved last; workbooks of the day that counts are the same visit.
 *
 * @param counted - The jobs that count
 * @param earlierOf - The other workbooks of a job, in any order
 */
export function visitedJobs(
  counted: readonly JobFigures[],
  earlierOf: (job: JobFigures) => readonly JobFigures[],
): readonly VisitedJob[] {
  return counted.flatMap((job) => {
    const others = earlierOf(job).filter(({ date }) => date !== null && job.date !== null && date < job.date);
    const days = [...groupedBy(others, ({ date }) => date ?? "").values()].map((ofDay) =>
      ofDay.reduce((latest, one) =>
        one.modifiedMs > latest.modifiedMs || (one.modifiedMs === latest.modifiedMs && one.file < latest.file)
          ? one
          : latest,
      ),
    );
    const [first] = days.toSorted((one, other) => ((one.date ?? "") < (other.date ?? "") ? -1 : 1));
    const last = visitOf(job);
    if (first === undefined && last.result.changed.outlets === 0) return [];
    return [
      {
        jobNumber: job.jobNumber,
        jobName: job.jobName,
        visits: days.length + 1,
        first: first === undefined ? null : visitOf(first),
        last,
      },
    ];
  });
}
