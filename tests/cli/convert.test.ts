import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { ownWorkbook, sheetInOrder } from "../workbook/takeover/mistakes.js";
import { typedIn } from "./vanesheet.js";

let folder = "";

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "convert-"));
  writeFileSync(join(folder, "job.xlsx"), await ownWorkbook({ ...sheetInOrder(), J7: 52 }));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const run = (...args: readonly string[]) => typedIn(folder, args);
const cell = (address: string, name = "job.xlsx") =>
  cellAt(readSheet(openWorkbook(readFileSync(join(folder, name)), name), "Grilles"), address);

describe("vanesheet convert", () => {
  it("asks for the columns first", async () => {
    const { status, err } = await run("convert", "job.xlsx");
    expect(status).toBe(2);
    expect(err).toContain("vanesheet columns FILE --keep");
  });

  it("shows formulas and values now and then, and changes nothing without --apply", async () => {
    await run("columns", "job.xlsx", "--keep");
    const before = readFileSync(join(folder, "job.xlsx"));
    const { status, out } = await run("convert", "job.xlsx", "--rows", "5:7");
    expect(status).toBe(0);
    expect(out).toMatch(
      /Grilles!J5 {2}S-5\n {2}now {2}=B5\*C5\/144\*D5\*AVERAGE\(E5:H5\)\n {2}new {2}=VANE\.AIRFLOW\.FACE\(B5,C5,E5:H5,D5,COUNT\(E5:H5\)\)\n {2}175 now, the same/,
    );
    expect(out).toContain("Grilles!J7  S-7  It was typed; a typed value is never replaced.");
    expect(out).toContain("Nothing was written. Add --apply");
    expect(readFileSync(join(folder, "job.xlsx")).equals(before)).toBe(true);
  });

  it("changes what was chosen with --apply, and makes it plain again with --back", async () => {
    await run("columns", "job.xlsx", "--keep");
    expect((await run("convert", "job.xlsx", "--apply")).status).toBe(0);
    expect(cell("J5")?.formula?.text).toContain("VANE_AIRFLOW_FACE(B5,C5,E5:H5,D5,COUNT(E5:H5))");
    expect(cell("J5")?.value).toBeCloseTo(175, 9);
    expect(cell("J7")).toMatchObject({ value: 52, formula: undefined });
    expect((await run("convert", "job.xlsx", "--back", "--column", "J", "--apply", "-o", "plain.xlsx")).status).toBe(0);
    expect(cell("J5", "plain.xlsx")?.formula?.text).not.toContain("VANE");
    expect(cell("J5", "plain.xlsx")?.value).toBeCloseTo(175, 9);
  });

  it("writes beside the old column, and only where it is empty", async () => {
    await run("columns", "job.xlsx", "--keep");
    const taken = await run("convert", "job.xlsx", "--beside", "K", "--apply");
    expect(taken.status).toBe(2);
    expect(taken.err).toMatch(/Grilles!K5 is in use/);
    expect((await run("convert", "job.xlsx", "--beside", "P", "--apply")).status).toBe(0);
    expect(cell("P5")?.value).toBeCloseTo(175, 9);
    expect(cell("J5")?.formula?.text).toBe("B5*C5/144*D5*AVERAGE(E5:H5)");
  });

  it.each([
    [["--rows", "b"], /--rows takes rows/],
    [["--column", "5"], /--column takes the letters/],
    [["--sheet", "Hall"], /There is no sheet “Hall”/],
    [["-o", "x.xlsx"], /goes with --apply/],
    [["--back", "--beside", "P"], /takes no --beside/],
  ])("says how it is typed right: %j", async (args, says) => {
    const { status, err } = await run("convert", "job.xlsx", ...args);
    expect(status).toBe(2);
    expect(err).toMatch(says);
  });
});
