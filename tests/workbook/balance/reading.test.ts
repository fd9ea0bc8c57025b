import { describe, expect, it } from "vitest";
import type { UnitSystemName } from "../../../src/core/index.js";
import {
  asFoundEdits,
  balanceGroups,
  HostError,
  type OutletRow,
  outletChange,
  readingEdits,
  readOutletLists,
  TEMPLATES,
  UNSTATED_JOB,
} from "../../../src/workbook/index.js";
import type { GivenWorkbook } from "../../hosts/contract.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { filledWorkbook } from "../../support/filled-workbook.js";
import { cellUnder } from "../../support/plan-places.js";

const outletsOf = (workbook: GivenWorkbook, units: UnitSystemName = "ip") =>
  readOutletLists(pageHostOver(workbook), units);

function found(outlets: readonly OutletRow[], name: string): OutletRow {
  const outlet = outlets.find((one) => one.name === name);
  if (outlet === undefined) throw new Error(`${name} was not read.`);
  return outlet;
}

/** A list that somebody keeps for himself: other headers, other places, a branch. */
function ownList(rows: Readonly<Record<string, number | string>>): GivenWorkbook {
  const headers = {
    C4: "Outlet",
    D4: "Branch",
    E4: "Design, cfm",
    F4: "Airflow (cfm)",
    G4: "Point 1, fpm",
    H4: "Point 2, fpm",
  };
  return { sheets: [{ name: "Mine", cells: { ...headers, ...rows } }], names: {} };
}

/** A cell of the first outlet of a job summary. */
const summaryCell = (header: string) => cellUnder(TEMPLATES["job-summary"](""), "JobSummary", header, 10);

describe("the outlets of a workbook", () => {
  it("are those of a room balance, each with its design, airflow, free area and cells for readings", async () => {
    const { value, findings } = await outletsOf(filledWorkbook("room-balance"));
    expect(findings).toEqual([]);
    const outlet = value[0];
    expect(outlet).toMatchObject({ sheet: "Outlets", row: 9, system: "AHU-1", entry: "velocities" });
    expect(outlet?.entryCells.map(({ range }) => range)).toEqual(
      ["R1", "R2", "R3", "R4", "R5", "R6"].map((header) =>
        cellUnder(TEMPLATES["room-balance"](""), "Outlets", header, 9),
      ),
    );
    const { freeArea, measured, entered } = outlet as OutletRow;
    const mean = entered.reduce<number>((sum, reading) => sum + Number(reading), 0) / entered.length;
    expect(measured).toBeCloseTo(mean * (freeArea ?? Number.NaN), 6);
  });

  it("say nothing of a total that adds them up, and remark on one that may be an outlet", async () => {
    const rows = {
      C5: "S-1",
      E5: 100,
      F5: 80,
      C6: "Total supply",
      E6: "=SUM(E4:E5)",
      F6: "=SUM(F4:F5)",
      C7: "S-2",
      E7: 90,
    };
    const { value, findings } = await outletsOf(ownList(rows));
    expect(value.map(({ name }) => name)).toEqual(["S-1", "S-2"]);
    expect(findings).toEqual([]);
    const typed = await outletsOf(ownList({ ...rows, F6: 80 }));
    expect(typed.findings).toEqual([]);
    expect(typed.remarks).toEqual(["Mine!6:6: Row 6 is a total (“Total supply”). It is not counted as an outlet."]);
    const held = await outletsOf(ownList({ ...rows, G6: 400 }));
    expect(held.findings).toEqual([expect.stringContaining("Row 6 is taken for a total (“Total supply”), but holds")]);
  });

  it("are none in an empty template, which is named, and in a workbook of other sheets", async () => {
    const nothing = { value: [], findings: [], remarks: [] };
    const empty = await outletsOf(givenPlan(TEMPLATES["room-balance"]("")));
    expect(empty).toEqual({ ...nothing, emptyLists: ["Outlets"] });
    const other = await outletsOf({ sheets: [{ name: "Notes", cells: { A1: "Outlet" } }], names: {} });
    expect(other).toEqual({ ...nothing, emptyLists: [] });
  });

  it("of a list with other headers are read by what the headers say without their unit", async () => {
    const { value } = await outletsOf(ownList({ C5: "S-1", D5: "North", E5: 100, F5: 80, G5: 210 }));
    expect(value).toMatchObject([
      { name: "S-1", branch: "North", design: 100, measured: 80, freeArea: null, entered: [210, null] },
    ]);
  });

  it("that were not measured have no airflow, and never 0", async () => {
    const plan = TEMPLATES["room-balance"]("");
    const readings = ["R1", "R2", "R3", "R4", "R5", "R6"].map((header) => cellUnder(plan, "Outlets", header, 9));
    const { value } = await outletsOf(
      filledWorkbook("room-balance", { Outlets: Object.fromEntries(readings.map((at) => [at, null])) }),
    );
    expect(value[0]?.measured).toBeNull();
  });

  it("name the cell that holds no number, and are read all the same", async () => {
    const { value, findings } = await outletsOf(ownList({ C5: "S-1", E5: "later", F5: 80, C6: "S-2", E6: 90, F6: 70 }));
    expect(findings).toEqual([
      "Mine!E5: Design, cfm: “later” is not a number. Enter only a number, or clear the cell.",
    ]);
    expect(value.map(({ name, design }) => [name, design])).toEqual([
      ["S-1", null],
      ["S-2", 90],
    ]);
  });

  it("with a design of 0 or below have none, and the cell is named", async () => {
    const { value, findings } = await outletsOf(ownList({ C5: "S-1", E5: 0, F5: 80 }));
    expect(value[0]?.design).toBeNull();
    expect(findings[0]).toContain("Mine!E5");
  });

  it("with one tag are told apart by their rows", async () => {
    const { value } = await outletsOf(ownList({ C5: "S-1", E5: 90, C6: "S-1", E6: 90, C7: "S-2", E7: 80 }));
    expect(value.map(({ name }) => name)).toEqual(["S-1 (row 5)", "S-1 (row 6)", "S-2"]);
  });

  it("of a comparison count as left, and as found where they were not measured again", async () => {
    const { value } = await outletsOf(filledWorkbook("before-after"));
    const [first] = value;
    expect(first?.measured).toBe(first?.after);
    expect(value[5]).toMatchObject({ after: null, measured: value[5]?.before });
    expect(first?.entryCells).toHaveLength(4);
  });

  it("of a job summary take an airflow into the column of what was left", async () => {
    const { value } = await outletsOf(filledWorkbook("job-summary"));
    expect(value[0]).toMatchObject({
      entry: "airflow",
      entryCells: [{ sheet: "Job summary", range: summaryCell("Measured after") }],
    });
  });

  it("have their free area in m² where the job is measured in SI", async () => {
    // 300 mm x 200 mm, three quarters free: 0.3 · 0.2 · 0.75 = 0.045 m².
    const cells = {
      A1: "Outlet",
      B1: "Design airflow",
      C1: "Airflow",
      D1: "Width",
      E1: "Height",
      A2: "S-1",
      B2: 40,
      D2: 300,
      E2: 200,
    };
    const { value } = await outletsOf({ sheets: [{ name: "Mine", cells }], names: {} }, "si");
    expect(value[0]?.freeArea).toBeCloseTo(0.045, 9);
    expect(value[0]?.factor).toBe("assumed");
  });
});

describe("what is balanced together", () => {
  it("is of one list, one system and one kind", async () => {
    const { value } = await outletsOf(filledWorkbook("room-balance"));
    const groups = balanceGroups(value);
    expect(groups.map(({ system, kind }) => [system, kind])).toEqual([
      ["AHU-1", "supply"],
      ["AHU-1", "return"],
    ]);
    expect(groups.flatMap(({ outlets }) => outlets)).toHaveLength(value.length);
  });
});

describe("a new reading", () => {
  it("replaces all readings of the earlier setting, and the airflow follows", async () => {
    const host = pageHostOver(filledWorkbook("room-balance"));
    const [outlet] = (await readOutletLists(host, "ip")).value;
    if (outlet === undefined) throw new Error("Nothing was read.");
    await host.write(readingEdits(outlet, [300, 320]));
    const [again] = (await readOutletLists(host, "ip")).value;
    expect(again?.entered).toEqual([300, 320, null, null, null, null]);
    expect(again?.measured).toBeCloseTo(310 * (outlet.freeArea ?? Number.NaN), 6);
  });

  it("is refused where the sheet has too few cells or none, and where a cell holds a formula", async () => {
    const host = pageHostOver(ownList({ C5: "S-1", E5: 90, G5: "=200+10" }));
    const outlet = found((await readOutletLists(host, "ip")).value, "S-1");
    expect(() => readingEdits(outlet, [1, 2, 3])).toThrow(HostError);
    expect(() => readingEdits({ ...outlet, entryCells: [] }, [1])).toThrow(/no column for readings of S-1/);
    await expect(host.write(readingEdits(outlet, [205]))).rejects.toThrow(/G5 holds a formula/);
  });
});

describe("the readings as found", () => {
  const first = async (workbook: GivenWorkbook) => {
    const [outlet] = await outletsOf(workbook).then(({ value }) => value);
    if (outlet === undefined) throw new Error("Nothing was read.");
    return outlet;
  };

  it("go to the cells before of a comparison that has none yet, and the new ones are those after", async () => {
    const cell = (header: string) => cellUnder(TEMPLATES["before-after"](""), "Changes", header, 7);
    const contents = { B1: null, B2: null, B3: null, B4: null, A1: 400, A2: 0, A3: 380, A4: null };
    const blank = {
      "Before and after": Object.fromEntries(Object.entries(contents).map(([header, value]) => [cell(header), value])),
    };
    const workbook = filledWorkbook("before-after", blank);
    const outlet = await first(workbook);
    const host = pageHostOver(workbook);
    await host.write([...readingEdits(outlet, [300, 320]), ...asFoundEdits(outlet)]);
    const [row] = await host.read([{ sheet: "Before and after", range: `${cell("B1")}:${cell("A4")}` }]);
    expect(row?.values).toEqual([[400, 0, 380, null, 300, 320, null, null]]);
    const [again] = (await readOutletLists(host, "ip")).value;
    expect(again?.before).toBeCloseTo(260 * (outlet.freeArea ?? Number.NaN), 6);
    expect(again?.after).toBeCloseTo(310 * (outlet.freeArea ?? Number.NaN), 6);
    expect(again?.asFoundCells, "kept once, never replaced").toEqual([]);
  });

  it("go to the airflow before of a job summary", async () => {
    const outlet = await first(
      filledWorkbook("job-summary", {
        "Job summary": { [summaryCell("Measured before")]: null, [summaryCell("Measured after")]: 120 },
      }),
    );
    expect(asFoundEdits(outlet)).toEqual([
      { address: { sheet: "Job summary", range: summaryCell("Measured before") }, cells: [[120]] },
    ]);
  });

  it("stay where something stands before, where nothing was read, and where the list has no place for them", async () => {
    expect((await first(filledWorkbook("before-after"))).asFoundCells).toEqual([]);
    expect((await first(filledWorkbook("room-balance"))).asFoundCells).toEqual([]);
    const unread = await first(filledWorkbook("job-summary", { "Job summary": { P10: null, Q10: null } }));
    expect(unread.asFoundCells).toHaveLength(1);
    expect(asFoundEdits(unread)).toEqual([]);
  });

  it("never go over a formula, nor under the header of something else", async () => {
    const list = (cells: Readonly<Record<string, string | number>>): GivenWorkbook => ({
      sheets: [{ name: "Mine", cells: { A1: "Outlet", B1: "Design", A2: "S-1", B2: 90, ...cells } }],
      names: {},
    });
    const before = { C1: "Airflow before", D1: "Airflow after", D2: 80 };
    expect((await first(list(before))).asFoundCells).toEqual([{ sheet: "Mine", range: "C2" }]);
    expect((await first(list({ ...before, C2: '=IF(F2="","",F2)' }))).asFoundCells).toEqual([]);
    const points = { C1: "B1", D1: "Point 1", E1: "Airflow", D2: 200, E2: 80 };
    expect((await first(list(points))).asFoundCells).toEqual([]);
  });
});

describe("before and after", () => {
  const outlet = async () => found((await outletsOf(ownList({ C5: "S-1", E5: 90 }))).value, "S-1");

  it("asks both questions: repeatability shows a change whose amount is not known", async () => {
    // A mean of five sweeps repeats to 2 %: z = 40 / (0.02 · √(400² + 440²)) = 3.36 > 2.87; ± 25 % each dwarfs 10 %.
    const change = outletChange(await outlet(), 400, 440, { ...UNSTATED_JOB, repeatPercent: 2, repeatSweeps: 5 });
    expect(change?.verdict.didChange.z).toBeCloseTo(40 / (0.02 * Math.hypot(400, 440)), 6);
    expect(change?.verdict.didChange.isShown).toBe(true);
    expect(change?.verdict.howMuch.isShown).toBe(false);
  });

  it("makes no statement finer than one sweep each allows while the count of the repeats is not stated", async () => {
    const change = outletChange(await outlet(), 400, 440, { ...UNSTATED_JOB, repeatPercent: 2 });
    expect(change?.verdict.didChange.isShown).toBe(false);
    expect(change?.verdict.didChange.words).toContain("one sweep each");
  });

  it("takes the ± of the sheet where it states one", async () => {
    const change = outletChange({ ...(await outlet()), expandedPercent: 3 }, 400, 440, UNSTATED_JOB);
    expect(change?.verdict.howMuch.changeExpanded).toBeCloseTo(0.03 * Math.hypot(400, 440), 6);
    expect(change?.verdict.howMuch.isShown).toBe(true);
  });

  it("says nothing of an outlet that had no air before", async () => {
    expect(outletChange(await outlet(), 0, 80, UNSTATED_JOB)).toBeNull();
  });
});
