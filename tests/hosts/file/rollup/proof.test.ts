import { beforeAll, describe, expect, it } from "vitest";
import { BAD_WORKBOOKS } from "../../../../src/tools/rollup/bad-workbooks.js";
import { type Proof, proveRollUp } from "../../../../src/tools/rollup/prove-roll-up.js";

let proof: Proof;

beforeAll(async () => {
  proof = await proveRollUp({ files: 57, rows: 6, badEvery: 3 });
});

describe("generated jobs, some of which come in two revisions in different parts", () => {
  it("give in one run, in four merged parts and by the documented queries what they were made of", () => {
    const { truth, figures, largestDifference, wrong } = proof;
    expect(wrong).toEqual([]);
    expect(largestDifference).toBeLessThanOrEqual(1e-9);
    // By technician, month, instrument and system, six figures each, three ways.
    expect(figures).toBeGreaterThan(1000);
    expect(truth.jobs).toBeGreaterThan(30);
  });

  it("are bad in each way that is known, and each bad one is named", () => {
    const { truth, badWays, badNamed } = proof;
    expect(badWays).toBe(Object.keys(BAD_WORKBOOKS).length);
    expect(badNamed).toBe(Object.values(truth.bad).reduce((sum, count) => sum + count, 0));
  });
});
