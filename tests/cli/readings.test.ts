import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { typedIn } from "./vanesheet.js";

/* Every log here is invented. */

let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "readings-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: readonly string[]) => typedIn(folder, ["readings", ...args]);
const put = (name: string, ...rows: readonly string[]) => writeFileSync(join(folder, name), rows.join("\n"));

describe("vanesheet readings", () => {
  beforeEach(() => {
    put("log.csv", "Time,Velocity (fpm)", "10:00:00,2", "10:00:01,400", "10:00:02,OL", "10:00:03,440", "10:00:04,420");
    put("dates.csv", "Date,Velocity (fpm)", "3/4/2025 10:00:00,400", "3/4/2025 10:00:01,420");
  });

  it("says what it found and why, and gives the sweep that it suggests", async () => {
    const { status, out, err } = await run("log.csv");
    expect({ status, err }).toEqual({ status: 0, err: "" });
    expect(out).toMatch(/units +fpm \(ft\/min\) +\(found\) The column's name says so/);
    expect(out).toMatch(/From 1 s to 4 s .*suggested\. Without the readings near zero: 1 at the beginning/);
    expect(out).toMatch(/average +420 fpm \(2\.13 m\/s\), weighted by time/);
    expect(out).toMatch(/status: row 4 “OL”/);
  });

  it("takes start and end as seconds or times of day", async () => {
    expect((await run("log.csv", "--from", "3", "--to", "10:00:04")).out).toMatch(/average +430 fpm/);
    const nothing = await run("log.csv", "--from", "100");
    expect(nothing).toMatchObject({ status: 1 });
    expect(nothing.out).toContain("No reading lies between");
  });

  it("ends with 1 where something has to be answered, and says what to type", async () => {
    const { status, out } = await run("dates.csv");
    expect(status).toBe(1);
    expect(out).toMatch(/--time-format mdy +date, month first/);
    expect(out).not.toContain("average");
    expect((await run("dates.csv", "--time-format", "mdy")).status).toBe(0);
  });

  it("lets each finding be overridden", async () => {
    put("bare.txt", "0;1,5;9", "1;2,5;9");
    const options = "--delimiter semicolon --decimal comma --encoding windows-1252 --header 0 --time 1 --time-format s";
    const { status, out } = await run(
      "bare.txt",
      ...options.split(" "),
      "--velocity",
      "2",
      "--units",
      "m/s",
      "--range",
      "0..2",
    );
    expect(status).toBe(0);
    expect(out).toMatch(/average +295 fpm \(1\.50 m\/s\)/);
    expect(out.match(/\(given\)/g)).toHaveLength(9);
  });

  it("gives the same as data", async () => {
    const { out } = await run("log.csv", "--json");
    expect(JSON.parse(out)).toMatchObject({
      file: "log.csv",
      open: [],
      answers: { velocity: { value: "2", standing: "found" } },
      channels: [{ sweeps: [{ count: 3, meanFpm: 420, notReadings: [{ row: 4, kind: "status", text: "OL" }] }] }],
    });
  });

  it.each([
    [["log.csv", "--units", "furlongs"], 2, "--units furlongs cannot be used here; it takes one of: fpm"],
    [["log.csv", "--range", "wide"], 2, "LOW..HIGH"],
    [["log.csv", "--velocity", "7"], 2, "--velocity 7 cannot be used here"],
    [["log.csv", "--from", "noon"], 2, "time of day"],
    [["missing.csv"], 1, "missing.csv"],
    [[], 2, "FILE is missing"],
  ])("%j says what is wrong", async (args, status, part) => {
    const ended = await run(...args);
    expect(ended.status).toBe(status);
    expect(ended.err).toContain(part);
  });
});
