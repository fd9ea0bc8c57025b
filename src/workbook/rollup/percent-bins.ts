import type { Percent } from "../../core/index.js";

/** A class of percent of design: from its lower end on, below its upper end. */
export interface PercentBin {
  readonly label: string;
  readonly fromPercent: Percent;
  readonly belowPercent: Percent;
}

const WIDTH_PERCENT = 5;
const FIRST_PERCENT = 50;
const LAST_PERCENT = 150;

/** Classes of 5 % from 50 to 150 %, with what lies below and above. Chosen by us, no source. */
export const PERCENT_BINS: readonly PercentBin[] = [
  {
    label: `below ${FIRST_PERCENT}`,
    fromPercent: Number.NEGATIVE_INFINITY,
    belowPercent: FIRST_PERCENT,
  },
  ...Array.from({ length: (LAST_PERCENT - FIRST_PERCENT) / WIDTH_PERCENT }, (_, index) => {
    const fromPercent = FIRST_PERCENT + index * WIDTH_PERCENT;
    const belowPercent = fromPercent + WIDTH_PERCENT;
    return { label: `${fromPercent} to ${belowPercent}`, fromPercent, belowPercent };
  }),
  {
    label: `${LAST_PERCENT} and above`,
    fromPercent: LAST_PERCENT,
    belowPercent: Number.POSITIVE_INFINITY,
  },
];

/** Returns the number of the class in which a percent of design lies. */
export function percentBin(percent: Percent): number {
  return PERCENT_BINS.findIndex(({ belowPercent }) => percent < belowPercent);
}
