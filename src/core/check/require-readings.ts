import { DomainError } from "./domain-error.js";
import { requireSome } from "./require.js";

/** Refuses an empty list and a list with anything in it that is not a finite number; the message counts from 1. */
export function requireReadings(parameter: string, values: readonly number[]): void {
  requireSome(parameter, values);
  for (let index = 0; index < values.length; index += 1) {
    if (!Number.isFinite(values[index])) {
      throw new DomainError(`${parameter}, reading ${index + 1},`, "a finite number", values[index]);
    }
  }
}
