import { requireFinite, requireFiniteResult, requirePositive } from "../check/require.js";
import type { Percent } from "../units/quantity.js";

/**
 * Returns how much a result rose or fell, in percent of what it was.
 *
 * 100 · (after − before) / before
 *
 * @param before - Result before the work, above 0 [same unit]
 * @param after - Result after the work [same unit]
 * @returns Change, negative where it fell [%]
 * @throws {DomainError} When the result before is not positive or the one after is not finite
 * @source Definition of a relative change
 * @example
 * changePercent(850, 980) // => 15.294
 */
export function changePercent(before: number, after: number): Percent {
  requirePositive("before", before);
  requireFinite("after", after);
  return requireFiniteResult("changePercent", (100 * (after - before)) / before);
}
