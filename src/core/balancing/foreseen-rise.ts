import type { Ratio } from "../units/quantity.js";

/** How strongly a total holds itself where nothing was learned yet: between a constant pressure (0) and total (∞). */
export const USUAL_STIFFNESS = 0.7;

/** How little a first small move is trusted against the usual. */
const CAUTION = 0.03;

/** As good as a constant total. Who closes a damper further by it hardly goes too far. */
const FIRM_STIFFNESS = 30;

/**
 * A constant total. Who opens a damper again by it stops where both would meet at best, and so never passes the key: what
 * was closed too far is not closed again, and nobody goes round in a circle.
 */
const TOTAL_KEPT = 1e9;

/**
 * Returns how strongly a total is taken to hold itself where nothing was learned of it yet.
 *
 * @param isOpen - Whether the damper to set was never set before
 * @param isRaised - Whether it is to be opened
 * @returns The figure α for {@link foreseenRise}
 * @source Assumed figures; what the last two lead to is derived (docs/method.md, "That it ends")
 */
export function assumedStiffness(isOpen: boolean, isRaised: boolean): number {
  if (isOpen) return USUAL_STIFFNESS;
  return isRaised ? TOTAL_KEPT : FIRM_STIFFNESS;
}

/**
 * Returns by how much the other outlets of a branch rise when what they share falls.
 *
 * f = √((1 + α) / (1 + α · x²))
 *
 * The branch takes p = P − c · Q² from upstream, and its outlets Q ∝ √p. α = c · Q² / p is what lies upstream against
 * what lies behind: with 0 the others stay as they are, and the larger it is the more the total is kept.
 *
 * @param sharedRatio - What all would take at the present pressure after the move, over what they take now [ratio]
 * @param stiffness - The figure α of the branch, 0 or more
 * @returns Airflow of an untouched outlet after the move over that before it [ratio]
 * @source Derived from Δp = R · Q² upstream and downstream of the branch
 */
export function foreseenRise(sharedRatio: Ratio, stiffness: number): Ratio {
  return Math.sqrt((1 + stiffness) / (1 + stiffness * sharedRatio ** 2));
}

/**
 * Returns the figure α of a branch from how its untouched outlets rose since the last round.
 *
 * α = (f² − 1) / (1 − f² · x²), drawn towards 0.7 while the moves were small
 *
 * @param riseRatio - Airflow of untouched outlets now over that of the last round [ratio]
 * @param sharedRatio - What all would take now at the pressure of the last round, over what they took [ratio]
 * @returns Between 0 and 30
 * @source Derived: the equation of `foreseenRise` solved for α
 */
export function learnedStiffness(riseRatio: Ratio, sharedRatio: Ratio): number {
  if (sharedRatio >= 1 || riseRatio <= 1) return USUAL_STIFFNESS;
  const rest = Math.max(0, 1 - (riseRatio * sharedRatio) ** 2);
  const learned = (riseRatio ** 2 - 1 + CAUTION * USUAL_STIFFNESS) / (rest + CAUTION);
  return Math.min(FIRM_STIFFNESS, learned);
}
