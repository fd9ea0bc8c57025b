import { type Cfm, type Percent, sharedUncertainty } from "../../core/index.js";
import type { OutletRecord, OutletVerdict } from "./outlet-record.js";
import { PERCENT_BINS, percentBin } from "./percent-bins.js";

/** The outlet that lies farthest from its design, up or down. */
export interface FarthestOutlet {
  readonly outlet: string;
  readonly room: string;
  readonly system: string;
  readonly percent: Percent;
  readonly verdict: OutletVerdict | null;
}

/**
 * Sums and counts over some outlets; two of them merge into that of both.
 *
 * outlets = compared + not measured + no design + faulty, and the sums are over those compared alone.
 */
export interface Tally {
  readonly outlets: number;
  /** Have a design and an airflow. */
  readonly compared: number;
  readonly notMeasured: number;
  /** Have an airflow and no design. */
  readonly noDesign: number;
  readonly faulty: number;
  readonly low: number;
  readonly within: number;
  readonly high: number;
  /** By a guarded rule neither within nor outside. */
  readonly open: number;
  readonly measuredCfm: Cfm;
  readonly designCfm: Cfm;
  /** Of those compared, how many state a ±, and their sum: as if all erred alike, by one meter and the same assumptions. */
  readonly plusMinus: { readonly stated: number; readonly sumCfm: Cfm };
  /** Over outlets that were measured both before and after. */
  readonly changed: {
    readonly outlets: number;
    readonly beforeCfm: Cfm;
    readonly afterCfm: Cfm;
    /** Have a verdict as found and one as left. */
    readonly judged: number;
    /** How many of those judged were within limits as found, are as left, and are only since the adjustment. */
    readonly withinBefore: number;
    readonly withinAfter: number;
    readonly broughtWithin: number;
  };
  readonly farthest: FarthestOutlet | null;
  /** How many of those compared fall into each of the bins of percent of design. */
  readonly percentCounts: readonly number[];
}

/** The tally of no outlet. */
export const EMPTY_TALLY: Tally = {
  outlets: 0,
  compared: 0,
  notMeasured: 0,
  noDesign: 0,
  faulty: 0,
  low: 0,
  within: 0,
  high: 0,
  open: 0,
  measuredCfm: 0,
  designCfm: 0,
  plusMinus: { stated: 0, sumCfm: 0 },
  changed: {
    outlets: 0,
    beforeCfm: 0,
    afterCfm: 0,
    judged: 0,
    withinBefore: 0,
    withinAfter: 0,
    broughtWithin: 0,
  },
  farthest: null,
  percentCounts: PERCENT_BINS.map(() => 0),
};

/** A tally that sums are still added to. */
type Sum = {
  -readonly [Key in keyof Tally]: Tally[Key] extends number
    ? number
    : Tally[Key] extends readonly number[]
      ? number[]
      : Tally[Key] extends FarthestOutlet | null
        ? FarthestOutlet | null
        : { -readonly [Part in keyof Tally[Key]]: Tally[Key][Part] };
};

function emptySum(): Sum {
  const { plusMinus, changed, percentCounts } = EMPTY_TALLY;
  return {
    ...EMPTY_TALLY,
    plusMinus: { ...plusMinus },
    changed: { ...changed },
    percentCounts: [...percentCounts],
  };
}

/** Returns the tally of some outlets. */
export function tallyOf(outlets: readonly OutletRecord[]): Tally {
  const sum = emptySum();
  for (const outlet of outlets) {
    sum.outlets += 1;
    addChange(sum, outlet);
    if (outlet.status === "compared") addCompared(sum, outlet);
    else if (outlet.status === "not measured") sum.notMeasured += 1;
    else if (outlet.status === "no design") sum.noDesign += 1;
    else sum.faulty += 1;
  }
  return sum;
}

function addChange({ changed }: Sum, { status, beforeCfm, afterCfm, foundVerdict, verdict }: OutletRecord): void {
  if (status === "faulty" || beforeCfm === null || afterCfm === null) return;
  changed.outlets += 1;
  changed.beforeCfm += beforeCfm;
  changed.afterCfm += afterCfm;
  if (foundVerdict === null || verdict === null) return;
  changed.judged += 1;
  if (foundVerdict === "within") changed.withinBefore += 1;
  if (verdict === "within") changed.withinAfter += 1;
  if (verdict === "within" && foundVerdict !== "within") changed.broughtWithin += 1;
}

function addCompared(sum: Sum, outlet: OutletRecord): void {
  const { outlet: tag, room, system, measuredCfm, designCfm, percent, verdict, plusMinusCfm } = outlet;
  if (measuredCfm === null || designCfm === null || percent === null) {
    throw new Error(`${tag} is compared without figures.`);
  }
  sum.compared += 1;
  if (verdict !== null) sum[verdict] += 1;
  sum.measuredCfm += measuredCfm;
  sum.designCfm += designCfm;
  if (plusMinusCfm !== null) {
    sum.plusMinus.stated += 1;
    sum.plusMinus.sumCfm = sharedUncertainty([sum.plusMinus.sumCfm, plusMinusCfm]);
  }
  if (isFarther(percent, sum.farthest)) sum.farthest = { outlet: tag, room, system, percent, verdict };
  addCount(sum, percentBin(percent), 1);
}

function addCount({ percentCounts }: Sum, bin: number, count: number): void {
  percentCounts[bin] = (percentCounts[bin] ?? 0) + count;
}

function isFarther(percent: Percent, than: FarthestOutlet | null): boolean {
  return than === null || Math.abs(percent - 100) > Math.abs(than.percent - 100);
}

/** Merges tallies into that of all their outlets. */
export function mergedTally(tallies: readonly Tally[]): Tally {
  const sum = emptySum();
  for (const tally of tallies) {
    addCounts(sum, tally);
    addChanges(sum.changed, tally.changed);
    if (tally.farthest !== null && isFarther(tally.farthest.percent, sum.farthest)) sum.farthest = tally.farthest;
    for (let bin = 0; bin < tally.percentCounts.length; bin += 1) addCount(sum, bin, tally.percentCounts[bin] ?? 0);
  }
  if (tallies.length > 0) sum.plusMinus.sumCfm = sharedUncertainty(tallies.map(({ plusMinus }) => plusMinus.sumCfm));
  return sum;
}

/* Field by field: a roll-up merges every part of every job a dozen times, and going by names takes thrice as long. */

function addCounts(sum: Sum, tally: Tally): void {
  sum.outlets += tally.outlets;
  sum.compared += tally.compared;
  sum.notMeasured += tally.notMeasured;
  sum.noDesign += tally.noDesign;
  sum.faulty += tally.faulty;
  sum.low += tally.low;
  sum.within += tally.within;
  sum.high += tally.high;
  sum.open += tally.open;
  sum.measuredCfm += tally.measuredCfm;
  sum.designCfm += tally.designCfm;
  sum.plusMinus.stated += tally.plusMinus.stated;
}

function addChanges(sum: Sum["changed"], changed: Tally["changed"]): void {
  sum.outlets += changed.outlets;
  sum.beforeCfm += changed.beforeCfm;
  sum.afterCfm += changed.afterCfm;
  sum.judged += changed.judged;
  sum.withinBefore += changed.withinBefore;
  sum.withinAfter += changed.withinAfter;
  sum.broughtWithin += changed.broughtWithin;
}
