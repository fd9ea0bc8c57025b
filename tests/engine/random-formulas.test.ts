import { describe, expect, it } from "vitest";
import { fuzz } from "../../src/tools/formulas/fuzz.js";
import { randomFormulas } from "../../src/tools/formulas/random-formulas.js";

describe("random formulas, many of them over what others gave", () => {
  it("give what LibreOffice gives, or are listed as not calculated", () => {
    const { different, errors, listed } = fuzz(4, 1000);
    expect(different).toEqual([]);
    expect(errors).toBeGreaterThan(50);
    expect(listed).toBe(0);
  }, 120_000);

  it("are the same for the same seed, and call a hundred functions", () => {
    expect(randomFormulas(4, 50)).toEqual(randomFormulas(4, 50));
    const called = new Set(randomFormulas(4, 1000).flatMap((formula) => formula.match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? []));
    expect(called.size).toBeGreaterThan(100);
  });
});
