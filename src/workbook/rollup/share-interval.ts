/** Of a normal distribution 95 % lie within so many standard deviations. */
const NORMAL_95 = 1.959963984540054;

/** Between which percents the true share may lie. */
export interface ShareInterval {
  readonly fromPercent: number;
  readonly toPercent: number;
}

/**
 * Returns between which percents a share may lie (95 %) of which a count is known: few outlets, a wide interval.
 *
 * (k + z²/2 ± z·√(k·(n − k)/n + z²/4)) / (n + z²), the score interval
 *
 * It takes the outlets as independent. Those of one job are alike, so that the true interval is rather wider.
 *
 * @param hits - How many of them are within
 * @param count - How many there are
 * @returns The interval; null of none
 * @source E. B. Wilson, Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22
 * (1927) 209, as textbooks of statistics print it
 */
export function shareInterval(hits: number, count: number): ShareInterval | null {
  if (count === 0) return null;
  const square = NORMAL_95 ** 2;
  const middle = hits + square / 2;
  const reach = NORMAL_95 * Math.sqrt((hits * (count - hits)) / count + square / 4);
  // Rounding alone may go below 0 or above 100.
  return {
    fromPercent: hits === 0 ? 0 : (100 * (middle - reach)) / (count + square),
    toPercent: hits === count ? 100 : (100 * (middle + reach)) / (count + square),
  };
}
