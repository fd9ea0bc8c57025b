import { describe, expect, it } from "vitest";
import { cellFunctions } from "../../src/cells/index.js";
import { rolesIn } from "../../src/tools/function-roles.js";

function written(tag: string): string {
  return `
/**
 * Invented.
 *
 * @customfunction TEST.SCALE
 * @param readings Readings [fpm].
 * @param factor What they are multiplied by, which is no free-area factor.
 * @returns A number.
 * ${tag}
 */
export function vaneTestScale(readings: any[][], factor: any): any {
  return [readings, factor];
}
`;
}

const rolesOf = (tag: string) => [...(rolesIn("test.ts", written(tag)).get("TEST.SCALE") ?? [])];

describe("the roles of parameters", () => {
  it("are those that the function's comment names, whatever its parameters are called", () => {
    expect(rolesOf("@roles readings=velocity")).toEqual([["readings", "velocity"]]);
    expect(rolesOf("@roles readings factor")).toEqual([
      ["readings", "readings"],
      ["factor", "factor"],
    ]);
    expect(rolesOf("")).toEqual([]);
  });

  it("are refused where a word is no parameter or no role", () => {
    expect(() => rolesOf("@roles pressures=readings")).toThrow("@roles of TEST.SCALE: there is no parameter pressures");
    expect(() => rolesOf("@roles factor=scale")).toThrow("@roles of TEST.SCALE: scale is not one of readings,");
  });

  it("are forgotten for no count of readings, on which several checks rest", () => {
    const counts = cellFunctions.flatMap(({ id, parameters }) =>
      parameters.filter(({ name }) => name === "taken").map(({ role }) => [id, role] as const),
    );
    expect(counts.length).toBeGreaterThan(20);
    expect(counts.filter(([, role]) => role !== "taken")).toEqual([]);
  });
});
