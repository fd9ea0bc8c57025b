import { requireAtLeast } from "../check/require.js";
import type { Inch, Ratio } from "../units/quantity.js";
import type { AnyDuctSection } from "./duct-section.js";
import { exceeds } from "./exceeds.js";
import { hydraulicDiameter } from "./hydraulic-diameter.js";

/** Diameters of straight duct that make a good plane, before it and behind it. */
const GOOD = { fromUpstream: 8, toDownstream: 2 };

/** Diameters below which the method may not be used. */
const LEAST = { fromUpstream: 2, toDownstream: 0.5 };

/** How a traverse plane lies between the disturbances before and behind it. */
export interface SiteCheck {
  /** Diameters from the last disturbance upstream to the plane. */
  readonly fromUpstreamRatio: Ratio;
  /** Diameters from the plane to the next disturbance downstream. */
  readonly toDownstreamRatio: Ratio;
  /**
   * "good": at least 8 and 2 diameters. "usable": at least 2 and 0.5; take more points than the minimum.
   * "too near": find another plane.
   */
  readonly verdict: "good" | "usable" | "too near";
  /** The verdict with its distances, and what to do. */
  readonly words: string;
}

const ADVICE: Readonly<Record<SiteCheck["verdict"], string>> = {
  good: "",
  usable: ". Take more points than usual, or find a place with 8 and 2 diameters",
  "too near": ". Find a place with at least 2 and 0.5 diameters; 8 and 2 are good",
};

/** Diameters as a person reads them, never more than there are. */
const shown = (ratio: Ratio) => (Math.floor(ratio * 10 + 1e-7) / 10).toFixed(1);

/**
 * Returns how many diameters a traverse plane lies from the disturbances, and whether that is enough.
 *
 * Good: 8 · Dh or more behind the last disturbance and 2 · Dh or more before the next; least: 2 · Dh and 0.5 · Dh
 *
 * @param section - Inside dimensions, above 0
 * @param fromUpstreamIn - From the last bend, branch, damper, fan or change of size to the plane, 0 or more [in]
 * @param toDownstreamIn - From the plane to the next disturbance or the open end, 0 or more [in]
 * @returns Both distances in hydraulic diameters, and the verdict
 * @throws {DomainError} When a dimension is not positive or a distance is negative
 * @source 40 CFR 60 App. A-1, Method 1, §11.1.1
 * @example
 * siteCheck({ shape: "round", diameterIn: 12 }, 60, 24)
 * // => { verdict: "usable", fromUpstreamRatio: 5, toDownstreamRatio: 2 }
 */
export function siteCheck(section: AnyDuctSection, fromUpstreamIn: Inch, toDownstreamIn: Inch): SiteCheck {
  const diameterIn = hydraulicDiameter(section);
  requireAtLeast("fromUpstreamIn", fromUpstreamIn, 0);
  requireAtLeast("toDownstreamIn", toDownstreamIn, 0);
  const fromUpstreamRatio = fromUpstreamIn / diameterIn;
  const toDownstreamRatio = toDownstreamIn / diameterIn;
  const reaches = (least: typeof GOOD) =>
    !exceeds(least.fromUpstream, fromUpstreamRatio) && !exceeds(least.toDownstream, toDownstreamRatio);
  const verdict = reaches(GOOD) ? "good" : reaches(LEAST) ? "usable" : "too near";
  const distances = `${shown(fromUpstreamRatio)} diameters downstream of the last fitting, ${shown(toDownstreamRatio)} upstream of the next`;
  return { fromUpstreamRatio, toDownstreamRatio, verdict, words: `${verdict}: ${distances}${ADVICE[verdict]}` };
}
