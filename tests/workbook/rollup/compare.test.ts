import { describe, expect, it } from "vitest";
import { findingAt, findingOf } from "../../../src/workbook/finding.js";
import { writeReport } from "../../../src/workbook/plan-file/index.js";
import {
  compareRollUps,
  earlierFindings,
  earlierJob,
  readSummary,
  rollUp,
  summaryWorkbook,
} from "../../../src/workbook/rollup/index.js";
import { openWorkbook, portableCodec } from "../../../src/xlsx/index.js";
import { figuresOf, jobBytes } from "./made-job.js";

const OUTLETS = [{ design: 300, after: 310 }, { design: 400, after: 100 }, { design: 120 }];
const job = (number: string, file: string, outlets = OUTLETS) => figuresOf(jobBytes(outlets, { number }), file);

const BEFORE = rollUp([...job("J-1", "a.xlsx"), ...job("J-2", "b.xlsx"), ...job("", "=c.xlsx")]).value;
const PROBLEM = findingOf("bad.xlsx", "not-opened", "workbook", "It is empty (0 bytes).", "Get the file again.");
const FAULT = {
  ...findingAt(["Job summary", "H10"], "not-a-number", "outlet", "As left: 390 is stored as text.", "Enter it."),
  file: "a.xlsx",
};
const REMARK = findingOf("a.xlsx", "noted", "nothing", "It looks open in another program.", "");
const SUPERSEDED = { ...findingOf("old.xlsx", "superseded", "workbook", "For job J-1 a.xlsx counts.", "") };
const FOUND = [PROBLEM, FAULT, REMARK, { ...SUPERSEDED, severity: "warning" as const }];

const EARLIER = { jobs: BEFORE.jobs.map(earlierJob), findings: earlierFindings(FOUND) };

describe("a roll-up compared with an earlier one", () => {
  it("is as usual while nothing changed", () => {
    const changes = compareRollUps(EARLIER, BEFORE, FOUND);
    expect(changes).toEqual({
      newJobs: [],
      changedJobs: [],
      goneJobs: [],
      newProblems: [],
      goneProblems: [],
      isNewProblem: false,
    });
  });

  it("says which job is new, which changed from what to what, and which is gone", () => {
    const now = rollUp([
      ...job("j-1", "a.xlsx", [{ design: 300, after: 310 }, { design: 400, after: 390 }, { design: 120 }]),
      ...job("J-3", "d.xlsx"),
      ...job("", "=c.xlsx"),
    ]).value;
    const changes = compareRollUps(EARLIER, now, FOUND);
    expect(changes.newJobs.map(({ jobNumber }) => jobNumber)).toEqual(["J-3"]);
    expect(changes.goneJobs.map(({ jobNumber }) => jobNumber)).toEqual(["J-2"]);
    // By hand: 310 + 100 became 310 + 390, and the low outlet came within its limits.
    expect(changes.changedJobs.map((changed) => changed.changes)).toEqual([
      ["low 1 → 0", "within 1 → 2", "measured 410 → 700 cfm"],
    ]);
    expect(changes.isNewProblem).toBe(true);
  });

  it("does not call new what moved on its sheet, and counts what is there twice", () => {
    const moved = { ...FAULT, cell: "H11" };
    expect(compareRollUps(EARLIER, BEFORE, [PROBLEM, moved]).newProblems).toEqual([]);
    const twice = compareRollUps(EARLIER, BEFORE, [PROBLEM, FAULT, moved]);
    expect(twice.newProblems).toMatchObject([{ file: "a.xlsx", place: "Job summary!H11" }]);
    expect(twice.isNewProblem).toBe(true);
  });

  it("tells what is mended, and takes a remark for no problem", () => {
    const remark = findingOf("b.xlsx", "noted", "nothing", "Worth knowing.", "");
    const changes = compareRollUps(EARLIER, BEFORE, [FAULT, remark]);
    expect(changes).toMatchObject({ newProblems: [], goneProblems: [{ file: "bad.xlsx" }], isNewProblem: false });
  });

  it.each(["ip", "si"] as const)("reads the earlier one from its summary in %s units", async (units) => {
    const { plan, values } = summaryWorkbook(BEFORE, FOUND, { units, about: "", changes: null, calibrationMonths: 12 });
    const earlier = readSummary(openWorkbook(await writeReport(plan, values, portableCodec), "summary.xlsx"));
    expect(earlier.jobs.map(({ file, jobNumber, date }) => [file, jobNumber, date])).toEqual(
      BEFORE.jobs.map(({ file, jobNumber, date }) => [file, jobNumber, date]),
    );
    const { isNewProblem, ...lists } = compareRollUps(earlier, BEFORE, FOUND);
    expect(isNewProblem).toBe(false);
    expect(Object.values(lists).flat()).toEqual([]);
  });

  it("refuses a workbook that is no summary, and says what it lacks", () => {
    const jobs = openWorkbook(jobBytes(OUTLETS), "job.xlsx");
    expect(() => readSummary(jobs)).toThrow("“job.xlsx” is not a summary of a roll-up: it has no sheet “Jobs”.");
  });
});
