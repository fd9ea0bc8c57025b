import { describe, expect, it } from "vitest";
import * as core from "../../src/core/index.js";
import { departure, type PublishedCase, publishedCases } from "../published-cases.js";
import { coreFunctions } from "./core-functions.js";

/** Runs every row of shared/cases through the core. How to write a row: the comment in tests/published-cases.ts. */

const parametersOf = new Map(coreFunctions().map((one) => [one.name, one.parameters.map(({ name }) => name)]));
const callable: Readonly<Record<string, unknown>> = { ...core };

describe.each([...new Set(publishedCases().map(({ file }) => file))])("%s", (file) => {
  const rows = publishedCases().filter((row) => row.file === file);

  it.each(rows.map((row) => [row.title, row] as const))("%s", (_title, row) => {
    expect(departure(called(row), row.expected, row.tolerance), `${row.source} (${row.toleranceReason})`).toBe(
      undefined,
    );
  });

  it("has no two rows of the same title", () => {
    const titles = rows.map(({ title }) => title);
    expect(titles.filter((title, index) => titles.indexOf(title) !== index)).toEqual([]);
  });
});

describe("the comparison with a published value", () => {
  it("takes what lies inside the tolerance and refuses what lies outside", () => {
    expect(departure(400.4, 400, 0.5)).toBeUndefined();
    expect(departure(400.6, 400, 0.5)).toContain("published 400");
    expect(departure(Number.NaN, 400, 0.5)).toContain("NaN");
    expect(departure(undefined, 400, 0.5)).toContain("undefined");
  });

  it("compares lists whole and records by the fields that were published", () => {
    expect(departure([1, 2], [1, 2], 0)).toBeUndefined();
    expect(departure([1, 2, 3], [1, 2], 0)).toContain("2 values");
    expect(departure({ flow: 1, key: "a" }, { key: "a" }, 0)).toBeUndefined();
    expect(departure({ flow: 1, key: "a" }, { key: "b" }, 0)).toContain("result.key");
  });
});

function called(row: PublishedCase): unknown {
  const parameters = parametersOf.get(row.function);
  const formula = callable[row.function];
  if (!parameters || typeof formula !== "function") throw new Error(`src/core does not export ${row.function}`);
  expect(Object.keys(row.inputs).sort(), `arguments of ${row.function}`).toEqual([...parameters].sort());
  return formula(...parameters.map((parameter) => row.inputs[parameter]));
}
