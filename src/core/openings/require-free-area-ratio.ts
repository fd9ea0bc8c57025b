import { DomainError } from "../check/domain-error.js";

/** Refuses a factor that is no part of an opening: 0, below 0, above 1. */
export function requireFreeAreaRatio(parameter: string, freeAreaRatio: number): void {
  if (!(freeAreaRatio > 0 && freeAreaRatio <= 1))
    throw new DomainError(parameter, "above 0 and at most 1", freeAreaRatio);
}
