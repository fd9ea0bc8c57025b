import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { jobBytes } from "../../../workbook/rollup/made-job.js";
import { type PrintedRollUp, rolledUp, runRollUp, someJobs } from "./run-rollup.js";

const FILES = 40;

let folder = "";
let whole: PrintedRollUp;

const at = (...names: readonly string[]) => join(folder, ...names);
const merged = (...places: readonly string[]) => rolledUp(folder, [...places, "-o", "merged.xlsx", "--replace"]);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "vanesheet-parts-"));
  someJobs(at("jobs"), FILES);
  // A job of which one machine has an older workbook and another the newer one.
  mkdirSync(at("jobs", "month 13"));
  writeFileSync(at("jobs", "month 13", "old.xlsx"), jobBytes([{ design: 100, after: 80 }], { number: "Z-1" }));
  mkdirSync(at("jobs", "month 14"));
  const newer = jobBytes([{ design: 100, after: 99 }], { number: "z-1", date: 46_100 });
  writeFileSync(at("jobs", "month 14", "new.xlsx"), newer);
  whole = await rolledUp(folder, ["jobs", "-o", "whole.xlsx"]);
  const folders = readdirSync(at("jobs")).map((name) => `jobs/${name}`);
  for (const part of [0, 1]) {
    const places = folders.filter((_, index) => index % 2 === part);
    await rolledUp(folder, [...places, "-o", `${part}.xlsx`, "--part", `${part}.part`, "--technician", "Technician A"]);
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the parts of a roll-up", () => {
  it("give together what one run gives, in every figure and finding, whatever each was filtered by", async () => {
    const { read: _, ...ofParts } = await merged("1.part", "0.part");
    const { read: __, ...ofOne } = whole;
    expect(ofParts).toEqual(ofOne);
    const newest = ofParts.jobs.find(({ jobNumber }) => jobNumber === "z-1");
    expect(newest).toMatchObject({ file: "jobs/month 14/new.xlsx", measuredCfm: 99 });
    expect(ofParts.findings).toContainEqual(
      expect.objectContaining({ kind: "superseded", file: "jobs/month 13/old.xlsx" }),
    );
  });

  it("stand beside folders, count a workbook once, and make a part again", async () => {
    const both = await rolledUp(folder, ["0.part", "jobs", "-o", "both.xlsx", "--part", "both.part"]);
    expect(both.total).toEqual(whole.total);
    expect(both.jobs).toEqual(whole.jobs);
    expect(both.findings.filter(({ problem }) => problem.includes("0.part holds the same workbook"))).not.toHaveLength(
      0,
    );
    expect((await merged("both.part")).jobs).toEqual(whole.jobs);
  });

  it("keep workbooks of one name and different content apart", async () => {
    mkdirSync(at("other", "jobs"), { recursive: true });
    writeFileSync(at("other", "jobs", "a.xlsx"), jobBytes([{ design: 100, after: 90 }], { number: "A" }));
    await rolledUp(at("other"), ["jobs", "-o", "a.xlsx", "--part", "../other.part"]);
    writeFileSync(at("jobs", "a.xlsx"), jobBytes([{ design: 100, after: 95 }], { number: "B" }));
    const { jobs } = await rolledUp(folder, ["other.part", "jobs/a.xlsx", "-o", "names.xlsx"]);
    rmSync(at("jobs", "a.xlsx"));
    expect(jobs.map(({ jobNumber, file, measuredCfm }) => [jobNumber, file, measuredCfm])).toEqual([
      ["A", "other.part: jobs/a.xlsx", 90],
      ["B", "jobs/a.xlsx", 95],
    ]);
  });

  it("that are mixed, torn or not whole are left out and named", async () => {
    cpSync(at("0.part"), at("mixed.part"), { recursive: true });
    copyFileSync(at("1.part", "outlets.parquet"), at("mixed.part", "outlets.parquet"));
    cpSync(at("0.part"), at("torn.part"), { recursive: true });
    writeFileSync(at("torn.part", "jobs.parquet"), "PAR1");
    cpSync(at("0.part"), at("half.part"), { recursive: true });
    rmSync(at("half.part", "findings.parquet"));
    const { findings, total } = await merged("mixed.part", "torn.part", "half.part", "0.part", "1.part");
    expect(total).toEqual(whole.total);
    const leftOut = findings.filter(({ file }) => /^(mixed|torn|half)/.test(file));
    expect(leftOut.map(({ file, leftOut: what, severity }) => [file, what, severity])).toEqual([
      ["half.part", "workbook", "error"],
      ["mixed.part", "workbook", "error"],
      ["torn.part", "workbook", "error"],
    ]);
    expect(leftOut[1]?.problem).toContain("it is of another run than the tables beside it");
  });

  it("are passed over, and named, where they lie in a folder of jobs", async () => {
    cpSync(at("0.part"), at("jobs", "north"), { recursive: true });
    const { findings, total } = await merged("jobs");
    const own = ["jobs", "-o", "own.xlsx", "--part", "jobs/north", "--replace"];
    expect((await rolledUp(folder, own)).findings.filter(({ file }) => file === "jobs/north")).toEqual([]);
    rmSync(at("jobs", "north"), { recursive: true });
    expect(total).toEqual(whole.total);
    expect(findings).toContainEqual(
      expect.objectContaining({ file: "jobs/north", problem: "It holds a part of a roll-up, which is not read." }),
    );
  });

  it("replace no other folder, and none without being asked", async () => {
    const to = (part: string, ...more: readonly string[]) =>
      runRollUp(folder, ["jobs", "-o", "new.xlsx", "--part", part, ...more]);
    expect(await to("0.part")).toMatchObject({ status: 1, err: expect.stringContaining("is there already") });
    expect(await to("jobs", "--replace")).toMatchObject({
      status: 1,
      err: expect.stringContaining("holds other files"),
    });
  });
});
