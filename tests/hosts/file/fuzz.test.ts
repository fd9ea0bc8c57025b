import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { anyMutant, mutantFile, soundWorkbooks } from "./mutants/mutants.js";
import { useWorkbook } from "./mutants/use-workbook.js";

/** How many mutants; FUZZ_RUNS=10000 for a long run. */
const RUNS = Number(process.env.FUZZ_RUNS ?? 60);
/** The same mutants each time; FUZZ_SEED=2 for others. */
const SEED = Number(process.env.FUZZ_SEED ?? 1);

describe("a workbook that was spoilt at random", () => {
  let folder = "";
  let sound: Awaited<ReturnType<typeof soundWorkbooks>> = new Map();

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "mutants-"));
    sound = await soundWorkbooks();
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  it("is used as it is or refused in words, and what is saved of it opens again", async () => {
    for (const { bytes } of sound.values()) expect(await useWorkbook(folder, bytes, 1)).toEqual([]);
    await fc.assert(
      fc.asyncProperty(anyMutant, fc.nat(10_000), async (mutant, choice) => {
        expect(await useWorkbook(folder, mutantFile(mutant, sound), choice)).toEqual([]);
      }),
      { numRuns: RUNS, seed: SEED },
    );
  }, 36_000_000);
});
