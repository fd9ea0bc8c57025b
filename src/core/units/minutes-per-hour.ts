/** @source Exact */
export const MINUTES_PER_HOUR = 60;
