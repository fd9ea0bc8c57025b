import { describe, expect, it } from "vitest";
import { hostileInputs } from "./hostile-inputs.js";
import { tryInput } from "./try-input.js";

/* All of them are run and measured by node build/tests/hostile/measure-hostile-inputs.js. */

describe("a hostile input", () => {
  it("has its like in every group, and there are many", () => {
    expect(hostileInputs.length).toBeGreaterThan(500);
    expect(new Set(hostileInputs.map(({ title }) => title)).size).toBe(hostileInputs.length);
    expect(new Set(hostileInputs.map(({ group }) => group)).size).toBe(5);
  });

  const quick = hostileInputs.filter(({ isQuick, group }) => isQuick === true && group !== "workbook");
  it.each(quick.map((input) => [input.title, input] as const))(
    "%s ends soon, in words",
    { timeout: 60_000 },
    async (_, input) => {
      expect((await tryInput(input)).faults).toEqual([]);
    },
  );
});
