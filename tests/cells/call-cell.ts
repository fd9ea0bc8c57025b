import { expect } from "vitest";
import { CellError, cellFunctions } from "../../src/cells/index.js";

/** Calls a function by its id as a host does; a block of one cell comes as that cell, an error as a value. */
export function callCell(id: string, ...values: unknown[]): unknown {
  const declaration = cellFunctions.find((candidate) => candidate.id === id);
  if (declaration === undefined) throw new Error(`there is no function ${id}`);
  try {
    const result = declaration.call(...values);
    return Array.isArray(result) && result.length === 1 && result[0]?.length === 1 ? result[0][0] : result;
  } catch (thrown) {
    if (thrown instanceof CellError) return thrown;
    throw thrown;
  }
}

/** A column as a host hands it over. */
export function column(...cells: unknown[]): unknown[][] {
  return cells.map((cell) => [cell]);
}

export function expectCellError(result: unknown, code: string, part: string): void {
  expect(result).toBeInstanceOf(CellError);
  const { code: actualCode, message } = result as CellError;
  expect(actualCode).toBe(code);
  expect(message).toContain(part);
}
