import { DomainError } from "../check/domain-error.js";

/** The rules that place traverse points of equal weight: the mean of the readings is the mean velocity. */
export const TRAVERSE_RULES = ["equal area", "log-linear", "log-Tchebycheff"] as const;

export type TraverseRule = (typeof TRAVERSE_RULES)[number];

/** Refuses a rule that there is not; a formula that is asked from outside TypeScript may get anything. */
export function requireRule(rule: TraverseRule): void {
  if (!TRAVERSE_RULES.includes(rule)) {
    throw new DomainError("rule", '"equal area", "log-linear" or "log-Tchebycheff"', rule);
  }
}
