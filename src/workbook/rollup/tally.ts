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
  readonly changed: { readonly outlets: number; readonly beforeCfm: Cfm; readonly afterCfm: Cfm };
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
  changed: { outlets: 0, beforeCfm: 0, afterCfm: 0 },
  farthest: null,
  percentCounts: PERCENT_BINS.map(() => 0),
};

/** Returns the tally of one outlet. */
export function tallyOf(outlet: OutletRecord): Tally {
  const { status, beforeCfm, afterCfm } = outlet;
  const tally = { ...EMPTY_TALLY, outlets: 1, changed: changeOf(status === "faulty" ? null : beforeCfm, afterCfm) };
  switch (status) {
    case "not measured":
      return { ...tally, notMeasured: 1 };
    case "no design":
      return { ...tally, noDesign: 1 };
    case "faulty":
      return { ...tally, faulty: 1 };
    case "compared":
      return { ...tally, ...comparedParts(outlet) };
  }
}

function changeOf(beforeCfm: Cfm | null, afterCfm: Cfm | null): Tally["changed"] {
  return beforeCfm === null || afterCfm === null ? EMPTY_TALLY.changed : { outlets: 1, beforeCfm, afterCfm };
}

function comparedParts(outlet: OutletRecord): Partial<Tally> {
  const { measuredCfm, designCfm, percent, verdict, plusMinusCfm } = outlet;
  if (measuredCfm === null || designCfm === null || percent === null) {
    throw new Error(`${outlet.outlet} is compared without figures.`);
  }
  const bin = percentBin(percent);
  const { outlet: tag, room, system } = outlet;
  return {
    compared: 1,
    low: verdict === "low" ? 1 : 0,
    within: verdict === "within" ? 1 : 0,
    high: verdict === "high" ? 1 : 0,
    open: verdict === "open" ? 1 : 0,
    measuredCfm,
    designCfm,
    plusMinus: plusMinusCfm === null ? EMPTY_TALLY.plusMinus : { stated: 1, sumCfm: plusMinusCfm },
    farthest: { outlet: tag, room, system, percent, verdict },
    percentCounts: EMPTY_TALLY.percentCounts.map((_, index) => (index === bin ? 1 : 0)),
  };
}

/** Merges two tallies into that of all their outlets. */
export function mergeTallies(first: Tally, second: Tally): Tally {
  const sum = (key: keyof Tally & CountKey) => first[key] + second[key];
  return {
    outlets: sum("outlets"),
    compared: sum("compared"),
    notMeasured: sum("notMeasured"),
    noDesign: sum("noDesign"),
    faulty: sum("faulty"),
    low: sum("low"),
    within: sum("within"),
    high: sum("high"),
    open: sum("open"),
    measuredCfm: sum("measuredCfm"),
    designCfm: sum("designCfm"),
    plusMinus: {
      stated: first.plusMinus.stated + second.plusMinus.stated,
      sumCfm: sharedUncertainty([first.plusMinus.sumCfm, second.plusMinus.sumCfm]),
    },
    changed: {
      outlets: first.changed.outlets + second.changed.outlets,
      beforeCfm: first.changed.beforeCfm + second.changed.beforeCfm,
      afterCfm: first.changed.afterCfm + second.changed.afterCfm,
    },
    farthest: farther(first.farthest, second.farthest),
    percentCounts: first.percentCounts.map((count, index) => count + (second.percentCounts[index] ?? 0)),
  };
}

type CountKey = {
  [Key in keyof Tally]: Tally[Key] extends number ? Key : never;
}[keyof Tally];

function farther(first: FarthestOutlet | null, second: FarthestOutlet | null): FarthestOutlet | null {
  if (first === null || second === null) return first ?? second;
  return Math.abs(second.percent - 100) > Math.abs(first.percent - 100) ? second : first;
}
