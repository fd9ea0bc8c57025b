import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { UnitSystemName } from "../../../src/core/index.js";
import { jobFigures, type OutletRecord, rollUp } from "../../../src/workbook/rollup/index.js";
import { figuresOf, type JOB, jobBytes, type OutletCells, readBytes } from "./made-job.js";

function rolled(...jobs: readonly (readonly [readonly OutletCells[], Partial<typeof JOB>, UnitSystemName])[]) {
  return rollUp(
    jobs.flatMap(([outlets, job, units], index) => figuresOf(jobBytes(outlets, job, units), `${index}.xlsx`)),
  );
}

describe("a job", () => {
  it("is in percent the sum measured over the sum of design, not a mean of percents", () => {
    // By hand: 100 of 100 and 450 of 900 are 550 of 1000, 55 %; the mean of 100 % and 50 % would be 75 %.
    const { value } = rolled([
      [
        { design: 100, after: 100 },
        { design: 900, after: 450 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({ measuredCfm: 550, designCfm: 1000, percent: expect.closeTo(55, 9) });
  });

  it("leaves a design without a measurement out of both sums, and an airflow without a design", () => {
    const { value } = rolled([
      [{ design: 200, after: 190 }, { design: 5000 }, { after: 7000 }, { design: 0, after: 40 }],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({
      outlets: 4,
      compared: 1,
      notMeasured: 1,
      noDesign: 2,
      measuredCfm: 190,
      designCfm: 200,
      percent: 95,
    });
  });

  it("counts an airflow of 0 as measured: the outlet gives nothing", () => {
    const { value } = rolled([
      [
        { design: 100, after: 0 },
        { design: 100, after: 100 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({ compared: 2, measuredCfm: 100, percent: 50, low: 1, within: 1 });
  });

  it("of which nothing was measured has no percent", () => {
    const { value } = rolled([[{ design: 100 }], {}, "ip"]);
    expect(value.jobs[0]).toMatchObject({ percent: null, withinPercent: null, changePercent: null, farthest: null });
  });

  it("takes the airflow as left, and as found where nothing was adjusted", () => {
    const { value } = rolled([
      [
        { design: 100, before: 80, after: 98 },
        { design: 100, before: 101 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({ measuredCfm: 199, designCfm: 200 });
  });

  it("compares after with before over the outlets that were measured both times", () => {
    // By hand: 80 + 60 = 140 became 100 + 75 = 175, a quarter more; the third was never measured after.
    const { value } = rolled([
      [
        { design: 100, before: 80, after: 100 },
        { before: 60, after: 75 },
        { design: 100, before: 500 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({
      changed: { outlets: 2, beforeCfm: 140, afterCfm: 175 },
      changePercent: 25,
    });
  });

  it("is judged by its own limits, and outside air by its own", () => {
    const outlets: readonly OutletCells[] = [
      { design: 100, after: 95 },
      { design: 100, after: 94.9 },
      { design: 100, after: 110.1 },
      { design: 100, after: 99.9, kind: "outside air" },
      { design: 100, after: 104, kind: "outside air" },
    ];
    const bytes = jobBytes(outlets, {}, "ip", { Job_LimitMinus: 5, Job_LimitPlus: 10, Job_OutsideAirLimitPlus: 3 });
    expect(rollUp(figuresOf(bytes, "a.xlsx")).value.jobs[0]).toMatchObject({ within: 1, low: 2, high: 2 });
  });

  it("names the outlet that is farthest from its design, on either side", () => {
    const { value } = rolled([
      [
        { design: 100, after: 70, outlet: "S-1", room: "Hall" },
        { design: 100, after: 131, outlet: "S-2", room: "Study" },
        { design: 100, after: 100 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]?.farthest).toMatchObject({ outlet: "S-2", room: "Study", verdict: "high" });
  });

  it("has a ± between that of independent errors and that of one error in all", () => {
    // GUM 5.1.2: the root of 30² + 40² is 50; 5.2.2 note 1: all alike they add up to 70.
    const { value } = rolled([
      [
        { design: 300, after: 300, plusMinus: 30 },
        { design: 400, after: 400, plusMinus: 40 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({ plusMinusCfm: 70 });
  });

  it("has no ± as long as one of its outlets states none", () => {
    const { value } = rolled([
      [
        { design: 300, after: 300, plusMinus: 30 },
        { design: 400, after: 400 },
      ],
      {},
      "ip",
    ]);
    expect(value.jobs[0]).toMatchObject({ plusMinusCfm: null });
  });
});

describe("a job's limits and its rule", () => {
  const judged = (limits: Parameters<typeof jobBytes>[3]) => {
    // Limits 90 to 110 %: 108 ± 4 reaches over, 100 ± 4 does not, and the last states no ±.
    const rows = [
      { design: 100, after: 108, plusMinus: 4 },
      { design: 100, after: 100, plusMinus: 4 },
      { design: 100, after: 100 },
    ];
    return rollUp(figuresOf(jobBytes(rows, {}, "ip", limits), "job.xlsx"));
  };

  it("judge the airflow as measured, or both ends of its ± where the rule is guarded", () => {
    expect(judged({ Job_LimitMinus: 10, Job_LimitPlus: 10 }).value.total).toMatchObject({ within: 3, open: 0 });
    const guarded = judged({ Job_LimitMinus: 10, Job_LimitPlus: 10, Job_DecisionRule: "guarded" }).value.total;
    expect(guarded).toMatchObject({ within: 1, open: 2, withinPercent: expect.closeTo(100 / 3, 9) });
  });

  it("give no verdict while only one of the two is stated, and name the empty cell", () => {
    const half = { Job_LimitMinus: "", Job_LimitPlus: 10 };
    expect(judged(half).value.total).toMatchObject({ compared: 3, low: 0, within: 0, high: 0, open: 0 });
    const { findings } = readBytes(jobBytes([{ design: 100, after: 100 }], {}, "ip", half));
    expect(findings.filter(({ kind }) => kind === "job-detail")).toEqual([
      expect.objectContaining({ problem: expect.stringContaining("the other limit is given") }),
    ]);
  });
});

describe("jobs in inch-pound and in SI units", () => {
  it("add up in one unit", () => {
    // NIST Special Publication 811, appendix B.8: 1 cfm is 0.4719474 L/s, so 100 L/s are 211.888 cfm.
    const { value } = rolled(
      [[{ design: 200, after: 211.888 }], { number: "A" }, "ip"],
      [[{ design: 100, after: 90, before: 80, plusMinus: 10 }], { number: "B" }, "si"],
    );
    expect(value.jobs[1]?.designCfm).toBeCloseTo(211.888, 3);
    expect(value.jobs[1]?.percent).toBeCloseTo(90, 10);
    expect(value.jobs[1]?.plusMinusCfm).toBeCloseTo(21.1888, 3);
    expect(value.total.measuredCfm).toBeCloseTo(211.888 + 190.6992, 3);
    expect(value.jobs.map(({ units }) => units)).toEqual([["ip"], ["si"]]);
  });
});

describe("groups across jobs", () => {
  const { value } = rolled(
    [
      [
        { design: 100, after: 90, kind: "supply" },
        { design: 50, after: 55, kind: "return" },
      ],
      { number: "A", technician: "Tech A", date: 46_000 },
      "ip",
    ],
    [[{ design: 300, after: 240, kind: "Supply" }], { number: "B", technician: "tech a ", date: 46_030 }, "ip"],
    [[{ design: 70, after: 70, kind: "exhaust" }], { number: "C", technician: "Tech B", date: 46_031 }, "ip"],
  );

  it("a technician, however spelled", () => {
    expect(value.technicians).toMatchObject([
      { name: "Tech A", jobs: 2, outlets: 3, measuredCfm: 385, designCfm: 450 },
      { name: "Tech B", jobs: 1, outlets: 1 },
    ]);
  });

  it("a month", () => {
    // Day 46030 is 8 January 2026, day 46000 is 9 December 2025.
    expect(value.months).toMatchObject([
      { name: "2025-12", jobs: 1, outlets: 2 },
      { name: "2026-01", jobs: 2, outlets: 2 },
    ]);
  });

  it("a kind of outlet", () => {
    expect(value.kinds).toMatchObject([
      { name: "exhaust", measuredCfm: 70 },
      { name: "return", measuredCfm: 55 },
      { name: "supply", measuredCfm: 330, designCfm: 400, percent: 82.5, jobs: 2 },
    ]);
  });

  it("all of them", () => {
    expect(value.total).toMatchObject({ outlets: 4, compared: 4, measuredCfm: 455, designCfm: 520 });
  });
});

describe("several workbooks of one job", () => {
  const outlets: readonly OutletCells[] = [{ design: 100, after: 90 }];
  const file = (name: string, date: number, modifiedMs: number, hash: string, number = "J-1", more = outlets) =>
    figuresOf(jobBytes(more, { date, number }), name, modifiedMs, hash);

  it("count once, by the latest day of readings, whenever it was saved", () => {
    const { value, findings } = rollUp([
      ...file("old.xlsx", 46_000, 900, "1"),
      ...file("new.xlsx", 46_010, 100, "2", "j-1", [{ design: 100, after: 99 }]),
    ]);
    expect(value.jobs).toMatchObject([{ file: "new.xlsx", measuredCfm: 99 }]);
    expect(findings).toMatchObject([{ kind: "superseded", leftOut: "workbook", file: "old.xlsx" }]);
    expect(findings[0]?.problem).toContain("new.xlsx counts instead: its last readings are of 2025-12-19");
  });

  it("of the same day count by the one saved last", () => {
    const { value, findings } = rollUp([
      ...file("a.xlsx", 46_000, 200, "1", "J-1", [{ design: 100, after: 95 }]),
      ...file("b.xlsx", 46_000, 300, "2"),
    ]);
    expect(value.jobs).toMatchObject([{ file: "b.xlsx", measuredCfm: 90 }]);
    expect(findings[0]?.problem).toContain("it was saved later");
  });

  it("that are copies are called copies", () => {
    const { value, findings } = rollUp([...file("a.xlsx", 46_000, 200, "1"), ...file("b/copy.xlsx", 46_000, 200, "1")]);
    expect(value.jobs).toHaveLength(1);
    expect(findings[0]).toMatchObject({ file: "b/copy.xlsx" });
    expect(findings[0]?.problem).toContain("a copy, byte for byte");
  });

  it("that hold the same figures are told so, and a second part of a job is warned of", () => {
    expect(
      rollUp([...file("a.xlsx", 46_000, 200, "1"), ...file("b.xlsx", 46_000, 300, "2")]).findings[0]?.problem,
    ).toContain("both hold the same figures");
    const { findings } = rollUp([
      ...file("a.xlsx", 46_000, 200, "1"),
      ...file("b.xlsx", 46_010, 200, "2", "J-1", [...outlets, ...outlets]),
    ]);
    expect(findings[0]?.problem).toContain("this file lists 1 outlets, that one 2; a second part of the job needs");
  });

  it("without a job number are jobs of their own, but a copy is still found", () => {
    const { value, findings } = rollUp([
      ...file("a.xlsx", 46_000, 1, "1", ""),
      ...file("b.xlsx", 46_000, 1, "2", ""),
      ...file("c.xlsx", 46_000, 1, "1", ""),
    ]);
    expect(value.jobs.map((job) => job.file)).toEqual(["a.xlsx", "b.xlsx"]);
    expect(findings.map(({ kind }) => kind)).toEqual(["superseded", "no-job-number", "no-job-number"]);
  });
});

describe("any set of outlets", () => {
  const figure = fc.option(fc.integer({ min: 1, max: 5000 }), { nil: null });
  const outlet = fc
    .record({
      status: fc.constantFrom("compared", "faulty" as const),
      technician: fc.constantFrom("A", "B", ""),
      date: fc.constantFrom("2026-01-05", "2026-02-05", null),
      kind: fc.constantFrom("supply", "return", null),
      jobNumber: fc.constantFrom("1", "2", "3"),
      designCfm: figure,
      beforeCfm: figure,
      afterCfm: figure,
      plusMinusCfm: figure,
      verdict: fc.constantFrom("low", "within", "high"),
    })
    .map((some): OutletRecord => {
      const measuredCfm = some.afterCfm ?? some.beforeCfm;
      const { designCfm } = some;
      const percent = designCfm === null || measuredCfm === null ? null : (100 * measuredCfm) / designCfm;
      const unfit = measuredCfm === null ? "not measured" : "no design";
      const status = some.status === "faulty" ? "faulty" : percent === null ? unfit : "compared";
      return {
        ...BLANK,
        ...(some as Partial<OutletRecord>),
        measuredCfm,
        status,
        percent,
      };
    });
  const BLANK: OutletRecord = {
    sheet: "Job summary",
    row: 10,
    status: "faulty",
    jobNumber: "",
    jobName: "",
    date: null,
    technician: "",
    system: "",
    room: "",
    outlet: "S",
    kind: null,
    widthIn: null,
    heightIn: null,
    factorRatio: null,
    isFactorAssumed: null,
    units: "ip",
    designCfm: null,
    beforeCfm: null,
    afterCfm: null,
    measuredCfm: null,
    plusMinusCfm: null,
    percent: null,
    verdict: null,
    note: "",
    instrument: "",
    instrumentSerial: "",
    calibratedOn: null,
    calibrationDueOn: null,
    foundVerdict: null,
    customer: "",
    site: "",
  };
  const file = (name: string) => ({ file: name, modifiedMs: 0, contentHash: "" });
  const outlets = fc.array(outlet, { maxLength: 40 });

  it("falls apart into compared, not measured, without design and faulty, in every grouping alike", () => {
    fc.assert(
      fc.property(outlets, (some) => {
        const { value } = rollUp(jobFigures(file("a.xlsx"), some));
        const compared = some.filter(({ status }) => status === "compared");
        const measured = compared.reduce((sum, { measuredCfm }) => sum + (measuredCfm ?? 0), 0);
        for (const groups of [value.jobs, value.technicians, value.months, value.kinds, [value.total]]) {
          const sum = (key: "outlets" | "compared" | "notMeasured" | "noDesign" | "faulty" | "measuredCfm") =>
            groups.reduce((total, group) => total + group[key], 0);
          expect(sum("outlets")).toBe(some.length);
          expect(sum("compared") + sum("notMeasured") + sum("noDesign") + sum("faulty")).toBe(some.length);
          expect(sum("compared")).toBe(compared.length);
          expect(sum("measuredCfm")).toBe(measured);
        }
      }),
    );
  });

  it("comes to the same in whatever order the workbooks come in", () => {
    fc.assert(
      fc.property(outlets, outlets, outlets, (first, second, third) => {
        const jobs = [
          ...jobFigures(file("a.xlsx"), first),
          ...jobFigures(file("b.xlsx"), second),
          ...jobFigures(file("c.xlsx"), third),
        ];
        expect(rollUp([...jobs].reverse())).toEqual(rollUp(jobs));
      }),
    );
  });

  it("has a percent between the lowest and the highest of its outlets", () => {
    fc.assert(
      fc.property(outlets, (some) => {
        const { percent } = rollUp(jobFigures(file("a.xlsx"), some)).value.total;
        const percents = some.flatMap((one) =>
          one.status === "compared" && one.percent !== null ? [one.percent] : [],
        );
        if (percents.length === 0) expect(percent).toBeNull();
        else {
          expect(percent).toBeGreaterThanOrEqual(Math.min(...percents) - 1e-9);
          expect(percent).toBeLessThanOrEqual(Math.max(...percents) + 1e-9);
        }
      }),
    );
  });
});
