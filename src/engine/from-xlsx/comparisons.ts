/** The engine's comparisons by their names in a file; it compares dates and times as the numbers that they are. */
export const COMPARISONS: Readonly<Record<string, string>> = {
  between: "isBetween",
  notBetween: "isNotBetween",
  equal: "isEqual",
  notEqual: "isNotEqual",
  greaterThan: "isGreaterThan",
  greaterThanOrEqual: "isGreaterOrEqualTo",
  lessThan: "isLessThan",
  lessThanOrEqual: "isLessOrEqualTo",
};
