/**
 * Part of a limit by which binary arithmetic may miss it: 165 / 150 · 100 is 110.00000000000001.
 *
 * Sums and products of a few numbers stay within some 1e-15 of the decimal result, and no meter resolves 1e-12; so
 * between the two lies room for a limit that is met exactly on paper. Every comparison with a limit uses this number,
 * here and in the plain formulas of templates and hand-off copies.
 */
export const LIMIT_TOLERANCE_RATIO = 1e-12;

/** Whether a value lies above a limit, by more than the tolerance. */
export function isAbove(value: number, limit: number): boolean {
  return value - limit > LIMIT_TOLERANCE_RATIO * Math.abs(limit);
}

/** Whether a value lies below a limit, by more than the tolerance. */
export function isBelow(value: number, limit: number): boolean {
  return limit - value > LIMIT_TOLERANCE_RATIO * Math.abs(limit);
}
