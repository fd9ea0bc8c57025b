import { describe, expect, it } from "vitest";
import { realRootsBetween } from "../../../src/core/traverse/real-roots-between.js";
import { tchebycheffNodes } from "../../../src/core/traverse/tchebycheff-nodes.js";

/**
 * Positive nodes, from Newton's identities with 40 digits and general root finding (mpmath); they round to the ten
 * digits of Abramowitz and Stegun, Table 25.5 (from memory, unverified).
 */
const POSITIVE_NODES: Readonly<Record<number, readonly number[]>> = {
  1: [],
  2: [0.5773502691896257],
  3: [Math.SQRT1_2],
  4: [0.1875924740850799, 0.7946544722917661],
  5: [0.37454140955358106, 0.8324974870009819],
  6: [0.26663540151670473, 0.42251865376111153, 0.8662468181078206],
  7: [0.32391181051990764, 0.5296567752851569, 0.883861700758049],
  9: [0.16790618421480394, 0.52876178305788, 0.601018655380238, 0.9115893077284345],
};

describe("nodes of equal weight", () => {
  it.each(Object.keys(POSITIVE_NODES).map(Number))("%i of them agree with an independent solution", (count) => {
    const positive = POSITIVE_NODES[count] ?? [];
    const expected = [...positive.map((node) => -node).reverse(), ...(count % 2 === 1 ? [0] : []), ...positive];
    const nodes = tchebycheffNodes(count) ?? [];
    expect(nodes).toHaveLength(expected.length);
    for (const [index, node] of nodes.entries()) expect(Math.abs(node - (expected[index] ?? 2))).toBeLessThan(1e-14);
  });

  it("do not exist for 8, nor for 10 and more", () => {
    for (const count of [8, 10, 11, 12, 100]) expect(tchebycheffNodes(count)).toBeUndefined();
  });
});

describe("real roots", () => {
  it("are found in order, however close or far apart", () => {
    // (x - 1/4)(x - 1/2)(x - 3/4) and (x - 0.5)(x - 0.5001)
    const apart = realRootsBetween([-3 / 32, 11 / 16, -1.5, 1], 0, 1);
    expect(apart).toHaveLength(3);
    for (const [index, root] of [0.25, 0.5, 0.75].entries()) expect(apart[index]).toBeCloseTo(root, 14);
    const close = realRootsBetween([0.25005, -1.0001, 1], 0, 1);
    expect(close[0]).toBeCloseTo(0.5, 10);
    expect(close[1]).toBeCloseTo(0.5001, 10);
  });

  it("outside the interval, or not real, are left out", () => {
    expect(realRootsBetween([-2, 1], 0, 1)).toEqual([]);
    expect(realRootsBetween([1, 0, 1], -5, 5)).toEqual([]);
    expect(realRootsBetween([7], 0, 1)).toEqual([]);
  });
});
