import { describe, expect, it } from "vitest";
import { plannedTemplate } from "../../../src/engine/planned-template.js";
import { checkedFile, checkWorkbook, jobEntries, TEMPLATES, tableEntries } from "../../../src/workbook/index.js";
import { EVERY_JOB, readOutlets, rollUp, USUAL_CALIBRATION_MONTHS } from "../../../src/workbook/rollup/index.js";
import { calibrationState, dayAfterMonths } from "../../../src/workbook/rollup/instruments.js";
import { shareInterval } from "../../../src/workbook/rollup/share-interval.js";
import { type CellEdit, openWorkbook, patchWorkbook } from "../../../src/xlsx/index.js";
import { figuresOf, type JOB, jobBytes, type OutletCells } from "./made-job.js";

const OUTLETS: readonly OutletCells[] = [
  { design: 300, after: 310 },
  { design: 400, after: 100 },
];

/** Day 46000 is 9 December 2025. */
function job(
  file: string,
  { outlets = OUTLETS, ...about }: Partial<typeof JOB> & { readonly outlets?: readonly OutletCells[] },
  details: Readonly<Record<string, number | string>> = {},
  savedMs = 0,
  hash = file,
) {
  return figuresOf(jobBytes(outlets, about, "ip", details), file, savedMs, hash);
}

const meter = (serial: string, calibrated: number | string) => ({
  Job_Instrument: "Rotating vane",
  Job_InstrumentSerial: serial,
  Job_InstrumentCalibrated: calibrated,
});

describe("instruments", () => {
  it("are known by their serial number, with the calibration on the days of the readings", () => {
    const { value, findings } = rollUp([
      ...job("a.xlsx", { number: "1" }, meter("VM-1", 46_000 - 300)),
      ...job("b.xlsx", { number: "2" }, meter("vm-1", 46_000 - 400)),
      ...job("c.xlsx", { number: "3" }, meter("VM-2", 46_001)),
      ...job("d.xlsx", { number: "4" }),
    ]);
    expect(value.instruments.map(({ serial, jobs, jobsByState }) => [serial, jobs, jobsByState])).toEqual([
      ["", 1, { valid: 0, expired: 0, "later than the readings": 0, "not stated": 1 }],
      ["VM-1", 2, { valid: 1, expired: 1, "later than the readings": 0, "not stated": 0 }],
      ["VM-2", 1, { valid: 0, expired: 0, "later than the readings": 1, "not stated": 0 }],
    ]);
    expect(value.instruments[1]).toMatchObject({ outlets: 4, measuredCfm: 820, lastDay: "2025-12-09" });
    const told = findings.filter(({ kind }) => kind === "calibration");
    expect(told.map(({ file, leftOut }) => [file, leftOut])).toEqual([
      ["b.xlsx", "nothing"],
      ["c.xlsx", "nothing"],
    ]);
    expect(told[0]?.problem).toBe(
      "The calibration of Rotating vane, vm-1 of 2024-11-04 had expired on 2025-12-09: it holds 12 months.",
    );
  });

  it("were past due on the day measured, and are said with that day", () => {
    const { value, findings } = rollUp([
      ...job("a.xlsx", { number: "1" }, { Job_Instrument: "Vane", Job_InstrumentDue: 45_999 }),
      ...job("b.xlsx", { number: "2" }, { Job_Instrument: "Vane", Job_InstrumentDue: 46_000 }),
    ]);
    expect(value.instruments[0]).toMatchObject({
      dueDays: ["2025-12-08", "2025-12-09"],
      jobsByState: { expired: 1, valid: 1 },
    });
    expect(findings.filter(({ kind }) => kind === "calibration").map(({ file, problem }) => [file, problem])).toEqual([
      ["a.xlsx", "The calibration of Vane was due on 2025-12-08 and had expired on 2025-12-09."],
    ]);
  });

  it("of the job's own table are said as the check says them", async () => {
    const options = { blocks: ["instruments"] } as const;
    const plan = TEMPLATES["room-balance"]("", options);
    const entries = {
      ...tableEntries(plan, "Instruments", [
        { Instrument: "VA-1", "Calibration due": 45_999 },
        { Instrument: "VA-2", "Calibration due": 46_000 },
      ]),
      ...tableEntries(plan, "Outlets", [{ Outlet: "S-1", Kind: "supply", "Design airflow": 100 }]),
      ...jobEntries({ Job_Date: 46_000 }),
    };
    const edits = Object.entries(entries).flatMap(([sheet, cells]) =>
      Object.entries(cells).map(([address, value]): CellEdit => ({ kind: "value", sheet, address, value })),
    );
    const bytes = patchWorkbook(await plannedTemplate("room-balance", options), edits);
    const workbook = openWorkbook(bytes, "job.xlsx");
    const told = readOutlets(workbook, new Map()).findings.filter(({ kind }) => kind === "calibration");
    const checked = checkWorkbook(checkedFile(workbook)).findings.filter(({ kind }) => kind === "calibration-expired");
    expect(told.map(({ problem, cell }) => [problem, cell])).toEqual([
      ["The calibration of VA-1 was due on 2025-12-08 and had expired on the day measured, 2025-12-09.", "E8"],
    ]);
    expect(checked.map(({ problem, cell }) => [problem, cell])).toEqual(
      told.map(({ problem, cell }) => [problem, cell]),
    );
  });

  it("hold their calibration to the very day, in short months too", () => {
    expect(dayAfterMonths("2024-02-29", 12)).toBe("2025-02-28");
    expect(dayAfterMonths("2024-08-31", 6)).toBe("2025-02-28");
    const state = (calibratedOn: string | null, date: string, calibrationDueOn: string | null = null) =>
      calibrationState({ calibratedOn, calibrationDueOn, date }, USUAL_CALIBRATION_MONTHS);
    expect(state("2025-01-10", "2026-01-10")).toBe("valid");
    expect(state("2025-01-10", "2026-01-11")).toBe("expired");
    expect(state(null, "2026-01-11")).toBe("not stated");
    // A day on which it is due comes before the usual year, either way.
    expect(state("2025-01-10", "2025-07-11", "2025-07-10")).toBe("expired");
    expect(state("2025-01-10", "2026-07-10", "2026-07-10")).toBe("valid");
    expect(state(null, "2026-01-11", "2026-01-10")).toBe("expired");
  });
});

describe("the interval of a share", () => {
  it("is that of other programs and of a published table", () => {
    // Computed by R from the same formula, printed in full: 6 of 32.
    const ofR = shareInterval(6, 32);
    expect(ofR?.fromPercent).toBeCloseTo(8.889545, 6);
    expect(ofR?.toPercent).toBeCloseTo(35.309155, 6);
    // R. G. Newcombe, Stat. Med. 17 (1998) 857, table I, method 3; from memory: 81 of 263 and 0 of 20.
    expect(shareInterval(81, 263)?.fromPercent).toBeCloseTo(25.53, 2);
    expect(shareInterval(81, 263)?.toPercent).toBeCloseTo(36.62, 2);
    expect(shareInterval(0, 20)).toMatchObject({ fromPercent: 0, toPercent: expect.closeTo(16.11, 2) });
  });

  it("is the same of the others turned round, and none of none", () => {
    expect(shareInterval(14, 20)?.fromPercent).toBeCloseTo(100 - (shareInterval(6, 20)?.toPercent ?? 0), 12);
    expect(shareInterval(0, 0)).toBeNull();
  });
});

describe("customer and site", () => {
  it("are read where a workbook has cells of those names", () => {
    const details = { Job_Customer: "Invented customer", Job_Site: "Invented street 1" };
    const figures = figuresOf(jobBytes(OUTLETS, {}, "ip", details), "own.xlsx");
    expect(rollUp(figures).value.jobs).toMatchObject([{ customer: "Invented customer", site: "Invented street 1" }]);
    expect(rollUp(job("plain.xlsx", {})).value.jobs).toMatchObject([{ customer: "", site: "" }]);
  });
});

describe("the trend", () => {
  it("has a row a month of all, then of each technician, which come to the same outlets", () => {
    const { trend, months } = rollUp([
      ...job("a.xlsx", { number: "1", technician: "B" }),
      ...job("b.xlsx", { number: "2", technician: "A" }),
      ...job("c.xlsx", { number: "3", technician: "A", date: 46_040 }),
    ]).value;
    expect(trend.map(({ month, technician, jobs, judged }) => [month, technician, jobs, judged])).toEqual([
      ["2025-12", null, 2, 4],
      ["2026-01", null, 1, 2],
      ["2025-12", "A", 1, 2],
      ["2026-01", "A", 1, 2],
      ["2025-12", "B", 1, 2],
    ]);
    expect(trend.slice(0, 2).map(({ withinPercent }) => withinPercent)).toEqual(
      months.map(({ withinPercent }) => withinPercent),
    );
  });
});

describe("visits", () => {
  it("set the first against the last, each day by the workbook saved last, and found against left", () => {
    const better: readonly OutletCells[] = [
      { design: 300, before: 250, after: 300 },
      { design: 400, after: 390 },
    ];
    const { visits } = rollUp([
      ...job("first.xlsx", { date: 46_000 }, {}, 1),
      ...job("first again.xlsx", { date: 46_000, outlets: [{ design: 300, after: 300 }] }, {}, 2),
      ...job("second.xlsx", { date: 46_010 }, {}, 3),
      ...job("third.xlsx", { date: 46_020, outlets: better }, {}, 4),
      ...job("other.xlsx", { number: "J-2" }),
    ]).value;
    expect(visits).toHaveLength(1);
    expect(visits[0]).toMatchObject({
      jobNumber: "J-1",
      visits: 3,
      first: { file: "first again.xlsx", date: "2025-12-09", result: { percent: 100 } },
      last: { file: "third.xlsx", result: { compared: 2, changed: { outlets: 1, beforeCfm: 250, afterCfm: 300 } } },
    });
  });

  it("judge as found and as left by the limits of the job, over outlets that have both", () => {
    const outlets: readonly OutletCells[] = [
      { design: 100, before: 80, after: 95 },
      { design: 100, before: 92, after: 108 },
      { design: 100, before: 105, after: 111 },
      { design: 100, before: 50, after: 60 },
      { design: 100, before: 100 },
      { before: 100, after: 100 },
    ];
    const changedOf = (details: Readonly<Record<string, number | string>>) =>
      rollUp(figuresOf(jobBytes(outlets, {}, "ip", details), "a.xlsx")).value.visits[0]?.last.result.changed;
    expect(changedOf({})).toMatchObject({ judged: 4, withinBefore: 2, withinAfter: 2, broughtWithin: 1 });
    expect(changedOf({ Job_LimitMinus: 50, Job_LimitPlus: 50 })).toMatchObject({ withinBefore: 4, withinAfter: 4 });
    // The list has no ± as found, so that nobody can say whether a guarded limit lies within it.
    expect(changedOf({ Job_DecisionRule: "guarded" })).toMatchObject({ judged: 0, withinBefore: 0 });
  });
});

describe("the newest workbook of a job", () => {
  it("is never a copy that was saved later", () => {
    const [original, revised] = [job("a.xlsx", {}, {}, 100, "same"), job("b.xlsx", {}, {}, 200, "other")];
    const copy = job("copy of a.xlsx", {}, {}, 300, "same");
    const { value, findings } = rollUp([...copy, ...original, ...revised]);
    expect(value.jobs.map(({ file }) => file)).toEqual(["b.xlsx"]);
    expect(findings.map(({ file }) => file).toSorted()).toEqual(["a.xlsx", "copy of a.xlsx"]);
    expect(rollUp([...copy, ...original]).value.jobs.map(({ file }) => file)).toEqual(["a.xlsx"]);
  });

  it("is not one whose date is still to come, and that is said", () => {
    // Day 56700 is in 2055.
    const figures = [...job("a.xlsx", { date: 46_000 }), ...job("slip.xlsx", { date: 56_700 }, {}, 9)];
    const settings = { today: "2026-01-05", calibrationMonths: 12, names: [] };
    const { value, findings } = rollUp(figures, EVERY_JOB, settings);
    expect(value.jobs.map(({ file }) => file)).toEqual(["a.xlsx"]);
    expect(findings).toContainEqual(
      expect.objectContaining({
        kind: "day-to-come",
        file: "slip.xlsx",
        problem: expect.stringContaining("2055"),
      }),
    );
    const tomorrow = rollUp(job("a.xlsx", { date: 46_000 }), EVERY_JOB, {
      today: "2025-12-08",
      calibrationMonths: 12,
      names: [],
    });
    expect(tomorrow.findings).toEqual([]);
  });
});
