/**
 * Part of a limit by which binary arithmetic may miss it: 165 / 150 · 100 is 110.00000000000001.
 *
 * Sums and products of a few numbers stay within some 1e-15 of the decimal result, and no meter resolves 1e-12; so
 * between the two lies room for a limit that is met exactly on paper.
 */
const BINARY_NOISE_RATIO = 1e-12;

/** Whether a value lies above a limit, by more than binary noise. */
export function isAbove(value: number, limit: number): boolean {
  return value - limit > BINARY_NOISE_RATIO * Math.abs(limit);
}

/** Whether a value lies below a limit, by more than binary noise. */
export function isBelow(value: number, limit: number): boolean {
  return limit - value > BINARY_NOISE_RATIO * Math.abs(limit);
}
