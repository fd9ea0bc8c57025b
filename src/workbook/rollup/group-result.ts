import { type Cfm, changePercent, type Percent, percentOfDesign } from "../../core/index.js";
import type { Tally } from "./tally.js";

/** What the outlets of a job, a technician, a month or a kind come to. Null is what cannot be said, never zero. */
export interface GroupResult extends Tally {
  /** Sum of the measured over the sum of the design of the same outlets. */
  readonly percent: Percent | null;
  /** Of the outlets with a verdict, how many are within limits. */
  readonly withinPercent: Percent | null;
  /** ± of the measured sum (95 %), taken as if every outlet errs alike; null unless each states its ±. */
  readonly plusMinusCfm: Cfm | null;
  /** From before to after, over the outlets measured both times. */
  readonly changePercent: Percent | null;
}

/** Works out what a tally comes to. */
export function groupResult(tally: Tally): GroupResult {
  const { compared, measuredCfm, designCfm, plusMinus, changed, low, within, high, open } = tally;
  const judged = low + within + high + open;
  const isPlusMinusKnown = compared > 0 && plusMinus.stated === compared;
  return {
    ...tally,
    percent: compared === 0 ? null : percentOfDesign(measuredCfm, designCfm),
    withinPercent: judged === 0 ? null : (100 * within) / judged,
    plusMinusCfm: isPlusMinusKnown ? plusMinus.sumCfm : null,
    changePercent: changed.beforeCfm > 0 ? changePercent(changed.beforeCfm, changed.afterCfm) : null,
  };
}
