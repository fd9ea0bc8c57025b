import { DomainError } from "./domain-error.js";

/** Refuses NaN and infinities. */
export function requireFinite(parameter: string, value: number): void {
  if (!Number.isFinite(value)) throw new DomainError(parameter, "a finite number", value);
}

/** Refuses everything that is not a finite number above 0. */
export function requirePositive(parameter: string, value: number): void {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) throw new DomainError(parameter, "above 0", value);
}

/** Refuses everything that is not a finite number of at least `minimum`. */
export function requireAtLeast(parameter: string, value: number, minimum: number): void {
  if (!(value >= minimum && value < Number.POSITIVE_INFINITY)) {
    throw new DomainError(parameter, `${minimum} or more`, value);
  }
}

/** Refuses everything outside `minimum` to `maximum`, both included. */
export function requireBetween(parameter: string, value: number, minimum: number, maximum: number): void {
  if (!(value >= minimum && value <= maximum)) {
    throw new DomainError(parameter, `from ${minimum} to ${maximum}`, value);
  }
}

/** Refuses everything that is not a whole number of at least `minimum`. */
export function requireWhole(parameter: string, value: number, minimum: number): void {
  if (!(Number.isSafeInteger(value) && value >= minimum)) {
    throw new DomainError(parameter, `a whole number of ${minimum} or more`, value);
  }
}

/** Refuses an empty list. */
export function requireSome(parameter: string, values: ArrayLike<unknown>): void {
  if (values.length === 0) throw new DomainError(parameter, "at least one value", "none");
}

/** Refuses a result that overflowed: arguments in range, but a number too large to hold. */
export function requireFiniteResult(name: string, value: number): number {
  if (!Number.isFinite(value)) throw new DomainError(name, "small enough to calculate with", value);
  return value;
}
