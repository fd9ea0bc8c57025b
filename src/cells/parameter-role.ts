/**
 * What the cells of an argument are, whatever function takes them: checks look at cells by it. The tag `@roles` of a
 * function's JSDoc names it; a parameter without one is not looked at.
 */
export const PARAMETER_ROLES = [
  "readings",
  "velocity",
  "measured",
  "taken",
  "factor",
  "area",
  "width",
  "height",
  "design",
  "rule",
  "points",
  "units",
  /** Whether readings are velocities or velocity pressures. */
  "kind-of-reading",
] as const;

export type ParameterRole = (typeof PARAMETER_ROLES)[number];
