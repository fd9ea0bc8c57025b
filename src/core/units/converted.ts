import { requireFinite, requireFiniteResult } from "../check/require.js";

/** Hands on a converted value after refusing what no unit can hold: NaN, infinities and overflow. */
export function converted(parameter: string, given: number, value: number): number {
  requireFinite(parameter, given);
  return requireFiniteResult(parameter, value);
}
