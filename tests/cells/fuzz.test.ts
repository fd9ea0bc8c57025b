import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CELL_ERROR_CODES, CellError, cellFunctions } from "../../src/cells/index.js";
import { anyArgument } from "./arbitrary-arguments.js";

/** How many calls of each function; FUZZ_RUNS=100000 for a long run. */
const RUNS = Number(process.env.FUZZ_RUNS ?? 300);

/** Says why an error is not one that a person can use, or nothing. */
function faultOfError(error: unknown): string | undefined {
  if (!(error instanceof CellError)) return `a bare error: ${String(error)}`;
  if (!CELL_ERROR_CODES.includes(error.code)) return `an unknown code: ${error.code}`;
  if (error.message.trim() === "") return `${error.code} without a message`;
  return /failed unexpectedly|\bundefined\b|\bNaN\b|\[object/.test(error.message) ? error.message : undefined;
}

/** Says why a value may not leave a cell function, or nothing. */
function faultOfValue(value: unknown): string | undefined {
  if (typeof value === "string" || typeof value === "boolean") return undefined;
  if (typeof value === "number") return Number.isFinite(value) ? undefined : `the number ${value}`;
  return value instanceof CellError ? faultOfError(value) : `${String(value)}, no value of a cell`;
}

function faultOfResult(result: unknown): string | undefined {
  if (!Array.isArray(result))
    return result instanceof CellError ? "an error handed back outside a block" : faultOfValue(result);
  if (result.length === 0) return "a block without a row";
  const width = Array.isArray(result[0]) ? result[0].length : 0;
  for (const row of result) {
    if (!Array.isArray(row) || row.length === 0 || row.length !== width) return "a block that is not rectangular";
    for (const value of row) {
      const fault = faultOfValue(value);
      if (fault !== undefined) return fault;
    }
  }
  return undefined;
}

describe.each(cellFunctions.map((declaration) => ({ ...declaration })))(
  "VANE.$id, with whatever a host can hand over",
  ({ call, parameters }) => {
    it("gives a value of a cell or an error that a person can use, and changes none of its arguments", () => {
      fc.assert(
        fc.property(fc.array(anyArgument, { minLength: parameters.length, maxLength: parameters.length }), (given) => {
          const before = JSON.stringify(given);
          let fault: string | undefined;
          try {
            fault = faultOfResult((call as (...args: unknown[]) => unknown)(...given));
          } catch (thrown) {
            fault = faultOfError(thrown);
          }
          expect(fault).toBeUndefined();
          expect(JSON.stringify(given)).toBe(before);
        }),
        { numRuns: RUNS },
      );
    }, 3_600_000);
  },
);
