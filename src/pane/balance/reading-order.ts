import type { ReadingOrder } from "../../core/index.js";
import { type BalanceGroup, type JobDetails, type OutletRow, statedRepeat } from "../../workbook/index.js";
import type { BalanceDraft } from "./balance-draft.js";

/** The sheet says it where it has a column for it; otherwise a reading is old while the sheet shows the same. */
function isOld(outlet: OutletRow, remembered: number | undefined): boolean {
  return outlet.ageCell === null ? remembered === outlet.measured : outlet.isOld;
}

/** Says of a group which of its readings are older than the last change, and what stood there in the last round. */
export function readingOrder(
  group: BalanceGroup,
  draft: BalanceDraft,
  keyOf: (outlet: OutletRow) => string,
  job: JobDetails,
): ReadingOrder {
  const names = (keys: readonly string[]) =>
    group.outlets.filter((outlet) => keys.includes(keyOf(outlet))).map(({ name }) => name);
  const figures = (of: Readonly<Record<string, number>>) =>
    Object.fromEntries(
      group.outlets.flatMap((outlet) => {
        const figure = of[keyOf(outlet)];
        return figure === undefined ? [] : [[outlet.name, figure] as const];
      }),
    );
  const { repeatPercent, repeatDegreesOfFreedom } = statedRepeat(job);
  return {
    old: group.outlets
      .filter((outlet) => outlet.measured !== null && isOld(outlet, draft.old[keyOf(outlet)]))
      .map(({ name }) => name),
    set: names(draft.set),
    round: figures(draft.round),
    counts: figures(draft.counts),
    changeCount: draft.changes[group.id] ?? 0,
    // The job states the mean of its sweeps; a reading at an outlet is one of them.
    repeatPercent: repeatPercent === "assumed" ? 0 : repeatPercent * Math.sqrt(repeatDegreesOfFreedom + 1),
  };
}
