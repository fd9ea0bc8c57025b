/** Keeps a limit that is met exactly met after a round trip through millimeters: 609.6 mm are 24 in and no more. */
export const ROUNDING_ALLOWANCE = 1 + 1e-9;

/** Whether a size lies above a limit, rounding aside. */
export function exceeds(size: number, limit: number): boolean {
  return size > limit * ROUNDING_ALLOWANCE;
}
