import { describe, expect, it } from "vitest";
import { publishedCases } from "../published-cases.js";
import {
  type Content,
  type ContractCase,
  type ExpectedCell,
  type ExpectedError,
  FUNCTION_CASES,
  type HostResult,
  type Shown,
} from "./function-cases.js";

/** Calculates a formula on a sheet that holds these cells, as the host under test does it. */
export type Evaluate = (formula: string, cells: Readonly<Record<string, Content>>) => HostResult | Promise<HostResult>;

/** Relative: a host may add up in another order, and no more. */
const ROUNDING = 1e-12;

function isError(expected: ExpectedCell): expected is ExpectedError {
  return typeof expected === "object";
}

function expectCell(shown: Shown | undefined, expected: ExpectedCell): void {
  if (isError(expected)) {
    expect(shown).toMatchObject({ error: expected.error, message: expect.stringContaining(expected.says) });
  } else if (typeof expected === "number") {
    expect(shown).toBeTypeOf("number");
    expect(Math.abs((shown as number) - expected)).toBeLessThanOrEqual(ROUNDING * Math.max(1, Math.abs(expected)));
  } else {
    expect(shown).toBe(expected);
  }
}

function asRows<Cell>(result: Cell | readonly (readonly Cell[])[]): readonly (readonly Cell[])[] {
  return Array.isArray(result) ? result : [[result as Cell]];
}

function expectResult(result: HostResult, expected: ContractCase["expected"]): void {
  const shown = asRows<Shown>(result);
  const rows = asRows<ExpectedCell>(expected);
  expect(shown.map((row) => row.length)).toEqual(rows.map((row) => row.length));
  for (const [rowIndex, row] of rows.entries()) {
    for (const [columnIndex, cell] of row.entries()) expectCell(shown[rowIndex]?.[columnIndex], cell);
  }
}

function contractTests(evaluate: Evaluate): void {
  describe.each(Object.entries(FUNCTION_CASES))("%s", (_, cases) => {
    it.each(cases.map((one) => [one.title, one] as const))("%s", async (_title, { formula, cells, expected }) => {
      expectResult(await evaluate(formula, cells), expected);
    });
  });
}

/** What a published row expects, as rows where it is a list: a list is a column. */
function publishedRows(expected: unknown): unknown {
  if (!Array.isArray(expected)) return expected;
  return expected.map((entry) => (Array.isArray(entry) ? entry : [entry]));
}

function expectPublished(shown: unknown, expected: unknown, tolerance: number, where: string): void {
  if (Array.isArray(expected)) {
    expect(Array.isArray(shown), `${where} gives a block`).toBe(true);
    expect((shown as unknown[]).length, where).toBe(expected.length);
    expected.forEach((entry, index) => {
      expectPublished((shown as unknown[])[index], entry, tolerance, where);
    });
  } else if (typeof expected === "number") {
    expect(shown, where).toBeTypeOf("number");
    expect(Math.abs((shown as number) - expected), `${where} gives ${String(shown)}`).toBeLessThanOrEqual(
      tolerance + 1e-15 * Math.abs(expected),
    );
  } else {
    expect(shown, where).toEqual(expected);
  }
}

function publishedTests(evaluate: Evaluate): void {
  const rows = publishedCases().flatMap(({ cell, title, source }) => (cell ? [{ ...cell, title, source }] : []));
  describe("published cases by their cell formula", () => {
    it.each(rows.map((row) => [row.title, row] as const))("%s", async (_, { formula, expected, tolerance, source }) => {
      const shown = await evaluate(formula, {});
      expectPublished(shown, publishedRows(expected), tolerance, `${formula} (${source})`);
    });
  });
}

/**
 * Runs the contract of the cell functions against one host: the same formula gives the same value, and the same
 * error with the same message, wherever it is calculated.
 */
export function describeFunctions(name: string, evaluate: Evaluate): void {
  describe(`the cell functions in ${name}`, () => {
    contractTests(evaluate);
    publishedTests(evaluate);
  });
}
