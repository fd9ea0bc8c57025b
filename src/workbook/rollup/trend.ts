import { type GroupResult, groupResult } from "./group-result.js";
import { groupedBy, type JobFigures, type JobPart } from "./job-figures.js";
import { type ShareInterval, shareInterval } from "./share-interval.js";
import { mergedTally } from "./tally.js";

/** What was measured in a month, by all or by one technician. */
export interface TrendResult extends GroupResult {
  /** Such as 2026-03; "" where no date is stated. */
  readonly month: string;
  /** Null for all of them together. */
  readonly technician: string | null;
  readonly jobs: number;
  /** Outlets with a verdict. */
  readonly judged: number;
  /** Of the share within limits. */
  readonly interval: ShareInterval | null;
}

interface MeasuredPart extends JobPart {
  readonly job: JobFigures;
}

const monthOf = ({ date }: JobPart) => (date ?? "").slice(0, 7);

function trendOf(technician: string | null, alike: readonly MeasuredPart[]): TrendResult {
  const result = groupResult(mergedTally(alike.map(({ tally }) => tally)));
  const judged = result.low + result.within + result.high + result.open;
  const month = alike[0] === undefined ? "" : monthOf(alike[0]);
  const jobs = new Set(alike.map(({ job }) => job)).size;
  return { month, technician, jobs, judged, interval: shareInterval(result.within, judged), ...result };
}

/** The share within limits month by month, first of all technicians together, then of each. */
export function trendResults(
  parts: readonly MeasuredPart[],
  byName: (one: string, other: string) => number,
): readonly TrendResult[] {
  const months = [...groupedBy(parts, monthOf).values()].map((alike) => trendOf(null, alike));
  const keyOf = (part: MeasuredPart) => `${part.technician.toLowerCase()}\n${monthOf(part)}`;
  const each = [...groupedBy(parts, keyOf).values()].map((alike) => trendOf(alike[0]?.technician ?? "", alike));
  return [
    ...months.toSorted((one, other) => byName(one.month, other.month)),
    ...each.toSorted(
      (one, other) => byName(one.technician ?? "", other.technician ?? "") || byName(one.month, other.month),
    ),
  ];
}
