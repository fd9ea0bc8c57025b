import fc from "fast-check";
import { expect } from "vitest";
import { DomainError } from "../../src/core/index.js";

/** Numbers of the sizes that the trade knows, and a good deal beyond. */
export const positive = fc.double({ min: 1e-3, max: 1e5, noNaN: true, noDefaultInfinity: true });
/** Below a millionth only 0: numbers at the far end of the binary range lose their digits. */
export const signed = fc
  .double({ min: -1e5, max: 1e5, noNaN: true, noDefaultInfinity: true })
  .map((value) => (Math.abs(value) < 1e-6 ? 0 : value));
export const ratio = fc.double({ min: 1e-3, max: 1, noNaN: true });
export const density = fc.double({ min: 0.03, max: 0.1, noNaN: true });

/** What no formula takes, whatever its range. */
export const NOT_NUMBERS = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

/** Expects two numbers to agree but for binary noise. */
export function expectSame(actual: number, expected: number, relative = 1e-12): void {
  expect(Math.abs(actual - expected), `${actual} against ${expected}`).toBeLessThanOrEqual(
    relative * Math.max(Math.abs(actual), Math.abs(expected)),
  );
}

/** Expects a refusal that names the argument, says what is expected and what came. */
export function expectRefusal(call: () => unknown, parameter: string, expected: string, received?: unknown): void {
  let thrown: unknown;
  try {
    call();
  } catch (error) {
    thrown = error;
  }
  expect(thrown).toBeInstanceOf(DomainError);
  const refusal = thrown as DomainError;
  expect({ parameter: refusal.parameter, expected: refusal.expected }).toEqual({ parameter, expected });
  if (received !== undefined) expect(refusal.received).toBe(received);
  expect(refusal.message).toBe(`${parameter} must be ${expected}, but is ${String(refusal.received)}`);
}
