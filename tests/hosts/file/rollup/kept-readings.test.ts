import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type KeptReading, openKeptReadings, spelledReading } from "../../../../src/hosts/file/rollup/kept-readings.js";
import { jobBytes, readBytes } from "../../../workbook/rollup/made-job.js";

let folder = "";
let path = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "vanesheet-kept-"));
  path = join(folder, "kept", "readings");
});

afterEach(() => rmSync(folder, { recursive: true }));

const OUTLETS = readBytes(jobBytes([{ design: 100, after: 95, note: "line one\nline two" }, { design: 50 }])).value;
const FILES = ["/a.xlsx", "/b.xlsx", "/c.xlsx"];

function reading(file: string): KeptReading {
  return { path: file, bytes: 10, modifiedMs: 1, sha256: `hash of ${file}`, figures: [], findings: [] };
}

async function keep(files: readonly string[], version = "1"): Promise<void> {
  const kept = await openKeptReadings(path, version, false);
  // All at once, as the threads' answers come in.
  await Promise.all(files.map((file) => kept.add(spelledReading(reading(file), OUTLETS))));
  await kept.close(new Set(FILES));
}

async function known(version = "1"): Promise<readonly string[]> {
  const kept = await openKeptReadings(path, version, false);
  const found: string[] = [];
  for (const file of FILES) {
    if (kept.get(file) === undefined) continue;
    expect(kept.get(file)).toEqual(reading(file));
    expect(await kept.outlets(file)).toEqual(OUTLETS);
    found.push(file);
  }
  await kept.close(new Set(FILES));
  return found;
}

describe("readings that are kept", () => {
  it("come back whole, outlets and all", async () => {
    await keep(FILES);
    expect(await known()).toEqual(FILES);
  });

  it("are those of the whole lines wherever the file was cut off, and the file goes on growing", async () => {
    await keep(FILES);
    const whole = readFileSync(path);
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: whole.length }), async (length) => {
        writeFileSync(path, whole.subarray(0, length));
        const left = await known();
        expect(FILES.slice(0, left.length)).toEqual(left);
        await keep(FILES.slice(left.length));
        expect(await known()).toEqual(FILES);
      }),
      { numRuns: 40 },
    );
  });

  it("are lost where a byte of them was spoiled, and no others", async () => {
    await keep(FILES);
    const whole = readFileSync(path);
    const head = whole.indexOf(0x0a) + 1;
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: head, max: whole.length - 1 }), async (at) => {
        const spoiled = Uint8Array.from(whole);
        spoiled[at] = (spoiled[at] ?? 0) ^ 1;
        writeFileSync(path, spoiled);
        expect((await known()).length).toBeGreaterThanOrEqual(1);
      }),
      { numRuns: 40 },
    );
  });

  it("of another version are not used", async () => {
    await keep(FILES, "1");
    expect(await known("2")).toEqual([]);
  });

  it("in a file that is something else are none", async () => {
    await keep(["/a.xlsx"]);
    writeFileSync(path, "{}\n\n\0\0not ours");
    expect(await known()).toEqual([]);
  });

  it("are swept when most of them are out of date", async () => {
    for (let run = 0; run < 5; run += 1) await keep(FILES);
    const size = statSync(path).size;
    await keep(["/a.xlsx"]);
    expect(statSync(path).size).toBeLessThan(size * 1.5);
    expect(await known()).toEqual(FILES);
  });

  it("that another run spoiled meanwhile are not taken for outlets", async () => {
    await keep(FILES);
    const kept = await openKeptReadings(path, "1", false);
    writeFileSync(path, readFileSync(path, "utf8").replaceAll("S-1", "S-9"));
    await expect(kept.outlets("/a.xlsx")).rejects.toThrow("Run one roll-up at a time");
    appendFileSync(path, "");
    await kept.close(new Set(FILES));
  });
});
