import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { builtShim, cleared, type Fault, faultsAfter, prepared } from "./try-fault.js";
import { writingCommands } from "./writing-commands.js";

/* Every call of every command is tried by node build/tests/hostile/faults/try-faults.js. */

const folder = mkdtempSync(join(tmpdir(), "faults-"));
const shim = builtShim(folder);
afterAll(() => rmSync(folder, { recursive: true }));

/** The call that a number picks, so that each run of the suite tries the same ones. */
const picked = (calls: readonly string[], seed: number) => 1 + (seed % calls.length);

describe.skipIf(shim === undefined)("a command that writes", () => {
  beforeAll(() => expect(shim).toContain(folder));

  it.each<readonly [title: string, hits: readonly (readonly [Fault, number])[]]>([
    [
      "handoff over an earlier copy",
      [
        ["the disk is full in the middle of a write", 2],
        ["Ctrl-C", 5],
      ],
    ],
    ["new, on a disk without hard links", [["permission denied", 7]]],
    [
      "rollup over an earlier one, of whose jobs most are gone",
      [
        ["the disk is full", 41],
        ["killed", 23],
      ],
    ],
  ])("loses nothing and leaves nothing behind: %s", { timeout: 240_000 }, async (title, hits) => {
    const command = writingCommands.find((one) => one.title === title);
    if (command === undefined || shim === undefined) throw new Error(`There is no ${title}.`);
    const ready = await prepared(shim, command);
    try {
      for (const [fault, seed] of hits) {
        expect(await faultsAfter(shim, ready, { fault, at: picked(ready.calls, seed) })).toEqual([]);
      }
    } finally {
      cleared(ready);
    }
  });
});
