import { DomainError } from "../check/domain-error.js";

/** Most points that a line may hold: far beyond any field traverse, near enough to stay quick. */
export const MOST_POINTS_PER_LINE = 200;

/** Refuses everything that is not an even number of points from `minimum` to the most that a line may hold. */
export function requireEvenPoints(parameter: string, count: number, minimum: number): void {
  if (!(Number.isSafeInteger(count / 2) && count >= minimum && count <= MOST_POINTS_PER_LINE)) {
    throw new DomainError(parameter, `an even number from ${minimum} to ${MOST_POINTS_PER_LINE}`, count);
  }
}
