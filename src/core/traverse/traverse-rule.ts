/** The rules that place traverse points of equal weight: the mean of the readings is the mean velocity. */
export type TraverseRule = "equal area" | "log-linear" | "log-Tchebycheff";
