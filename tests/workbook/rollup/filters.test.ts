import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type FindingKind, findingOf } from "../../../src/workbook/finding.js";
import { EVERY_JOB, type JobFilter, leftOutByReason, rollUp } from "../../../src/workbook/rollup/index.js";
import { figuresOf, jobBytes } from "./made-job.js";

const OUTLETS = [{ design: 300, after: 310 }, { design: 400, after: 100 }, { design: 120 }];

/** Days 46,000, 46,040 and none: 9 December 2025 and 18 January 2026. */
const FIGURES = [
  ...figuresOf(jobBytes(OUTLETS, { number: "J-1", technician: "A. Vale", date: 46_000 }), "a.xlsx"),
  ...figuresOf(jobBytes(OUTLETS, { number: "J-2", technician: "B. Reed", date: 46_040 }), "b.xlsx"),
  ...figuresOf(jobBytes(OUTLETS, { number: "K-3", technician: "A. Vale" }), "c.xlsx").map((job) => ({
    ...job,
    date: null,
  })),
];

const rolled = (filter: Partial<JobFilter>) => rollUp(FIGURES, { ...EVERY_JOB, ...filter }).value;
const numbers = (filter: Partial<JobFilter>) => rolled(filter).jobs.map(({ jobNumber }) => jobNumber);

describe("a filter of jobs", () => {
  it("keeps every job when it asks for none", () => {
    expect(numbers({})).toEqual(["J-1", "J-2", "K-3"]);
    expect(rolled({}).filteredOut).toBe(0);
  });

  it("goes by the day of the last readings, both ends in, and a job without a day is of none", () => {
    const [first, second] = FIGURES.map(({ date }) => date);
    expect(numbers({ since: first ?? null })).toContain("J-2");
    expect(numbers({ since: second ?? null })).not.toContain("J-1");
    expect(numbers({ until: first ?? null })).toEqual(["J-1"]);
    expect(rolled({ until: first ?? null }).filteredOut).toBe(2);
  });

  it("goes by technician and by job, with * and ?, whatever the capitals", () => {
    expect(numbers({ technician: "a. vale" })).toEqual(["J-1", "K-3"]);
    expect(numbers({ technician: "*reed" })).toEqual(["J-2"]);
    expect(numbers({ job: "j-?" })).toEqual(["J-1", "J-2"]);
    expect(numbers({ job: "nothing" })).toEqual([]);
    expect(rolled({ technician: "a. vale" }).total.outlets).toBe(6);
  });

  it("goes by customer and by site, both where both are asked for", () => {
    const named = FIGURES.map((job, index) => ({ ...job, customer: `Customer ${index % 2}`, site: `${index} Lane` }));
    const kept = (filter: Partial<JobFilter>) =>
      rollUp(named, { ...EVERY_JOB, ...filter }).value.jobs.map(({ jobNumber }) => jobNumber);
    expect(kept({ customer: "customer 0" })).toEqual(["J-1", "K-3"]);
    expect(kept({ customer: "customer 0", site: "2*" })).toEqual(["K-3"]);
    expect(kept({ site: "3*" })).toEqual([]);
    expect(numbers({ customer: "customer 0" })).toEqual([]);
  });

  it("reads a pattern as a regular expression of the same meaning would", () => {
    const letters = fc.string({ unit: fc.constantFrom("a", "b", "*", "?"), maxLength: 8 });
    fc.assert(
      fc.property(
        letters,
        fc.string({ unit: fc.constantFrom("a", "b"), minLength: 1, maxLength: 8 }),
        (pattern, number) => {
          const one = FIGURES.slice(0, 1).map((job) => ({ ...job, jobNumber: number, jobName: number }));
          const meant = new RegExp(`^${pattern.replaceAll("*", ".*").replaceAll("?", ".")}$`).test(number);
          expect(rollUp(one, { ...EVERY_JOB, job: pattern }).value.jobs.length).toBe(meant ? 1 : 0);
        },
      ),
    );
  });

  it("is quick with any pattern", () => {
    const job = FIGURES.slice(0, 1).map((one) => ({ ...one, jobNumber: "a".repeat(30_000) }));
    expect(rollUp(job, { ...EVERY_JOB, job: `${"*a".repeat(60)}*b` }).value.jobs).toEqual([]);
  });
});

describe("systems", () => {
  it("are summed for each job, and come to its total", () => {
    const { systems, total } = rolled({});
    expect(systems.reduce((sum, { outlets }) => sum + outlets, 0)).toBe(total.outlets);
    expect(systems.reduce((sum, { measuredCfm }) => sum + measuredCfm, 0)).toBeCloseTo(total.measuredCfm, 9);
    expect(new Set(systems.map(({ jobNumber }) => jobNumber))).toEqual(new Set(["J-1", "J-2", "K-3"]));
  });
});

describe("workbooks that are left out", () => {
  it("are grouped by reason, what somebody has to see to first", () => {
    const leftOut = (kind: FindingKind, file: string, problem: string, action: string) =>
      findingOf(file, kind, "workbook", problem, action);
    const older = Array.from({ length: 20 }, (_, index) =>
      leftOut(
        "superseded",
        `old ${index}.xlsx`,
        `For job J-${index} new ${index}.xlsx counts instead: it was saved later.`,
        "",
      ),
    );
    const groups = leftOutByReason([
      ...older,
      leftOut("not-opened", "a.xlsx", "It is empty (0 bytes).", "Get the file again."),
      leftOut("not-opened", "b.xlsx", "It is protected by a password.", "Open it."),
      leftOut("not-opened", "c.xlsx", "It is empty (0 bytes).", "Get the file again."),
      findingOf("d.xlsx", "unknown-kind", "nothing", "The kind is not given.", ""),
    ]);
    expect(groups.map(({ reason, findings }) => [reason, findings.length])).toEqual([
      ["It is empty (0 bytes).", 2],
      ["It is protected by a password.", 1],
      ["Another workbook of the same job counts instead.", 20],
    ]);
  });
});
