import { describe, expect, it } from "vitest";
import { tapeText } from "../../../src/core/index.js";
import {
  type BlockAddress,
  type CellValue,
  type InteractiveHost,
  measuredResult,
  type Placement,
  planPlacement,
  readJob,
  type TakenDuct,
  type TakenMeasurement,
  TEMPLATES,
  type TemplateId,
  UNSTATED_JOB,
  writeJob,
} from "../../../src/workbook/index.js";
import { CELLS, placeColumn, ROWS, readingColumn } from "../../../src/workbook/template/duct-traverse/places.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";
import { cellUnder } from "../../support/plan-places.js";

const opened = (template: TemplateId) => pageHostOver(givenPlan(TEMPLATES[template]("")));
const empty = () => pageHostOver({ sheets: [{ name: "Mine", cells: {} }], names: {} });

async function valueAt(host: InteractiveHost, address: BlockAddress | null): Promise<CellValue> {
  if (address === null) throw new Error("No cell shows the airflow.");
  return (await host.read([address]))[0]?.values[0]?.[0] ?? null;
}

async function planned(host: InteractiveHost, selected: BlockAddress, taken: TakenMeasurement) {
  await host.select(selected);
  return planPlacement(host, taken);
}

async function refusal(host: InteractiveHost, selected: BlockAddress, taken: TakenMeasurement): Promise<string> {
  const placement = await planned(host, selected, taken);
  if ("refusal" in placement) return placement.refusal;
  throw new Error(`It goes to ${placement.where}.`);
}

async function put(host: InteractiveHost, selected: BlockAddress, taken: TakenMeasurement): Promise<Placement> {
  const placement = await planned(host, selected, taken);
  if ("refusal" in placement) throw new Error(placement.refusal);
  await host.write(placement.edits);
  return placement;
}

function paneAirflow(taken: TakenMeasurement): number {
  const result = measuredResult(taken, UNSTATED_JOB);
  if (result === null) throw new Error("Nothing was measured.");
  return result.airflow;
}

/** NAVFAC MO-114, vol. 3, ch. 2: an 18 x 18 in duct, 400 fpm, 900 cfm. */
const NAVFAC: TakenDuct = {
  kind: "duct",
  units: "ip",
  size: { shape: "rectangular", width: 18, height: 18 },
  rule: "equal area",
  wall: 0,
  lines: 3,
  pointsPerLine: 3,
  readings: [300, 450, 300, 450, 600, 450, 300, 450, 300],
};

const ROUND_SI: TakenDuct = {
  kind: "duct",
  units: "si",
  size: { shape: "round", diameter: 315 },
  rule: "log-linear",
  wall: 25,
  lines: 2,
  pointsPerLine: 4,
  readings: [3.1, 0, null, 4.2, 3.9, -0.4, 4.4, 3.3],
};

const FACE_POINTS: TakenMeasurement = {
  kind: "face points",
  units: "ip",
  size: { shape: "rectangular", width: 14, height: 6 },
  factor: null,
  lines: 2,
  pointsPerLine: 3,
  readings: [400, 420, null, 0, 410, 395],
};

const SWEEPS: TakenMeasurement = {
  kind: "face sweeps",
  units: "ip",
  size: { shape: "rectangular", width: 24, height: 12 },
  factor: 0.8,
  sweeps: [
    { velocity: 400, seconds: 20 },
    { velocity: 460, seconds: 40 },
  ],
};

const SWEEPS_ROUND_SI: TakenMeasurement = {
  ...SWEEPS,
  units: "si",
  size: { shape: "round", diameter: 250 },
  factor: null,
  sweeps: [{ velocity: 2.5, seconds: 30 }],
};

/** 24 x 12 in, flat oval: 257.10 in², of which 400 fpm make 714.2 cfm (plane geometry). */
const OVAL: TakenDuct = {
  kind: "duct",
  units: "ip",
  size: { shape: "flat oval", major: 24, minor: 12 },
  rule: "equal area",
  wall: 0.5,
  lines: 4,
  pointsPerLine: 3,
  readings: [300, 450, 300, 400, 500, 400, 420, 520, 410, 320, 460, null],
};

const OVAL_SI: TakenDuct = {
  ...OVAL,
  units: "si",
  size: { shape: "flat oval", major: 600, minor: 300 },
  readings: [2, 2.4, 1.9, 2.2, 2.6, 2.1, 2.3, 2.7, 2.2, 1.8, 2.3, 0],
};

describe("a measurement put at an empty cell", () => {
  const all = { NAVFAC, OVAL, OVAL_SI, ROUND_SI, FACE_POINTS, SWEEPS, SWEEPS_ROUND_SI };

  it.each(Object.entries(all))("shows in its one formula what the pane shows: %s", async (_, taken) => {
    const host = empty();
    const { resultAt, replaces } = await put(host, { sheet: "Mine", range: "C4" }, taken);
    expect(replaces).toEqual([]);
    const shown = await valueAt(host, resultAt);
    expect(shown).toBeTypeOf("number");
    const expected = paneAirflow(taken);
    expect(Number(shown) / expected - 1).toBeCloseTo(0, 11);
    const [sheet] = await host.sheets();
    const [block] = await host.read([{ sheet: "Mine", range: sheet?.usedRange ?? "" }]);
    expect(block?.formulas.flat().filter((formula) => formula !== null)).toHaveLength(1);
  });

  it("gives the 900 cfm of the published traverse", async () => {
    const host = empty();
    const { resultAt } = await put(host, { sheet: "Mine", range: "A1" }, NAVFAC);
    expect(await valueAt(host, resultAt)).toBeCloseTo(900, 9);
  });

  it("follows a reading that is corrected in the sheet", async () => {
    const host = empty();
    const { resultAt } = await put(host, { sheet: "Mine", range: "A1" }, NAVFAC);
    await host.write([{ address: { sheet: "Mine", range: "E2" }, cells: [[1200]] }]);
    expect(await valueAt(host, resultAt)).toBeCloseTo(2.25 * 500, 9);
  });

  it("never goes over a cell that holds anything, and names that cell", async () => {
    const host = empty();
    await host.write([{ address: { sheet: "Mine", range: "F3" }, cells: [["keep"]] }]);
    expect(await refusal(host, { sheet: "Mine", range: "B2" }, NAVFAC)).toContain("F3 is in use");
    expect(await refusal(host, { sheet: "Mine", range: "F3" }, NAVFAC)).toContain(
      "Pick an outlet row or an empty cell",
    );
    expect(await valueAt(host, { sheet: "Mine", range: "F3" })).toBe("keep");
  });
});

describe("a measurement put into a row of the outlets", () => {
  const selected = { sheet: "Outlets", range: "A10" };
  const readings = (header: string) => cellUnder(TEMPLATES["room-balance"](""), "Outlets", header, 10);

  it("fills size and readings, leaves an unknown factor empty, and the row shows the pane's airflow", async () => {
    const host = opened("room-balance");
    await host.write([{ address: selected, cells: [["S-2"]] }]);
    const placement = await put(host, selected, FACE_POINTS);
    expect(placement.where).toBe("S-2, row 10 of the table of outlets on sheet “Outlets”");
    expect(placement.replaces).toEqual([]);
    expect(Number(await valueAt(host, placement.resultAt))).toBeCloseTo(paneAirflow(FACE_POINTS), 9);
    const [row] = await host.read([{ sheet: "Outlets", range: `${readings("R1")}:${readings("R6")}` }]);
    expect(row?.values).toEqual([[400, 420, null, 0, 410, 395]]);
  });

  it("names what would be replaced", async () => {
    const host = opened("room-balance");
    await put(host, selected, FACE_POINTS);
    const other = await planned(host, selected, { ...FACE_POINTS, readings: [500, 420, null, null, null, null] });
    expect(other).toMatchObject({ replaces: ["R1: 400", "R4: 0", "R5: 410", "R6: 395"] });
  });

  it("refuses more readings than it takes, unequal sweeps, and a row below the table", async () => {
    const host = opened("room-balance");
    expect(await refusal(host, selected, NAVFAC)).toContain("takes 6 readings and 9 were taken");
    expect(await refusal(host, selected, SWEEPS)).toContain("unequal length");
    expect(await planned(host, { sheet: "Outlets", range: "B80" }, FACE_POINTS)).toMatchObject({
      where: expect.stringContaining("B80:"),
    });
  });
});

describe("a measurement put into a row of sweeps", () => {
  const selected = { sheet: "Face sweep", range: "D12" };

  it("fills velocities and seconds, and the row shows the pane's airflow and ±", async () => {
    const host = opened("face-sweep");
    const { resultAt } = await put(host, selected, SWEEPS);
    const job = await readJob(host);
    const result = measuredResult(SWEEPS, job?.details ?? UNSTATED_JOB);
    expect(Number(await valueAt(host, resultAt))).toBeCloseTo(result?.airflow ?? Number.NaN, 9);
    const [header, row] = await host.read(["A8:AF8", "A12:AF12"].map((range) => ({ sheet: "Face sweep", range })));
    const doubt = row?.values[0]?.[header?.values[0]?.indexOf("± percent (95 %)") ?? -1];
    expect(Number(doubt)).toBeCloseTo(result?.budget.expandedPercent ?? Number.NaN, 6);
  });

  it("refuses readings at points", async () => {
    expect(await refusal(opened("face-sweep"), selected, FACE_POINTS)).toContain("timed sweeps");
  });
});

describe("a measurement put into a row of before and after", () => {
  const four: TakenMeasurement = {
    ...FACE_POINTS,
    factor: 0.7,
    lines: 2,
    pointsPerLine: 2,
    readings: [400, 420, 380, 400],
  };

  it("goes to the readings after where one of their cells is selected, and to those before elsewhere", async () => {
    const host = opened("before-after");
    const before = await put(host, { sheet: "Before and after", range: "A9" }, four);
    expect(before.where).toContain("readings as found");
    const [header] = await host.read([{ sheet: "Before and after", range: "A6:AF6" }]);
    const column = String.fromCharCode(65 + (header?.values[0]?.indexOf("A2") ?? 0));
    const after = await put(host, { sheet: "Before and after", range: `${column}9` }, four);
    expect(after.where).toContain("readings as left");
    for (const { resultAt } of [before, after]) {
      expect(Number(await valueAt(host, resultAt))).toBeCloseTo(paneAirflow(four), 9);
    }
  });
});

describe("a measurement put into the sheet of a traverse", () => {
  const selected = { sheet: "Duct traverse", range: "B2" };

  it.each([
    ["inch-pound, rectangular", NAVFAC, "ip"],
    ["inch-pound, flat oval, with an untaken reading", OVAL, "ip"],
    ["metric, flat oval", OVAL_SI, "si"],
    ["metric, round, with a dead spot, a reversed and an untaken reading", ROUND_SI, "si"],
  ] as const)("fills plan and grid, and the sheet shows the pane's airflow: %s", async (_, taken, units) => {
    const host = opened("duct-traverse");
    await writeJob(host, { units });
    const { resultAt, replaces } = await put(host, selected, taken);
    expect(replaces).toEqual([]);
    expect(Number(await valueAt(host, resultAt)) / paneAirflow(taken) - 1).toBeCloseTo(0, 11);
  });

  it("empties readings that lie outside the new plan, and says that they go", async () => {
    const host = opened("duct-traverse");
    await put(host, selected, NAVFAC);
    const smaller = { ...NAVFAC, lines: 2, pointsPerLine: 2, readings: [500, 500, 500, 500] };
    const { replaces, resultAt } = await put(host, selected, smaller);
    expect(replaces).toEqual(["Lines: 3", "Points on a line: 3", "9 readings"]);
    expect(Number(await valueAt(host, resultAt))).toBeCloseTo(2.25 * 500, 9);
  });

  it("shows at each cell of a flat oval the depth of its own line, and the hole over it", async () => {
    const host = opened("duct-traverse");
    await put(host, selected, OVAL);
    const shown = async (range: string) => (await host.read([{ sheet: selected.sheet, range }]))[0]?.values;
    // The outer strips are lower: 3.923 in from the end the duct is 11.26 in high, a third of which is 3.75.
    const holes = [3.923, 9.322].map((inches) => tapeText(inches));
    expect(await shown(`${placeColumn(1)}${ROWS.gridPlaces}:${readingColumn(2)}${ROWS.gridPlaces}`)).toEqual([
      [`${holes[0]} from end`, null, `${holes[1]} from end`, null],
    ]);
    expect(await shown(`${placeColumn(1)}${ROWS.gridFirst}`)).toEqual([[`A1 · ${tapeText(11.256 / 6 + 0.5)}`]]);
    expect(await shown(`${placeColumn(2)}${ROWS.gridFirst + 2}`)).toEqual([["B3 · 10 1/2"]]);
    expect(await shown(`${placeColumn(1)}${ROWS.gridFirst + 3}`)).toEqual([[""]]);
    expect(Number(await valueAt(host, { sheet: selected.sheet, range: CELLS.area.replaceAll("$", "") }))).toBeCloseTo(
      257.0973 / 144,
      5,
    );
  });

  it("asks for both sides of a flat oval, and for its one rule", async () => {
    const host = opened("duct-traverse");
    const { sheet } = selected;
    const write = (at: string, content: string | number | null) =>
      host.write([{ address: { sheet, range: at.replaceAll("$", "") }, cells: [[content]] }]);
    const shown = (at: string) => valueAt(host, { sheet, range: at.replaceAll("$", "") });
    await write(CELLS.oval, "yes");
    await write(CELLS.width, 24);
    await write(`${readingColumn(1)}${ROWS.gridFirst}`, 400);
    expect(await shown(`B${ROWS.gridFirst}`)).toBe("flat oval: enter both sides");
    expect(await shown(CELLS.airflow)).toBe("");
    await write(CELLS.height, 12);
    await write(CELLS.rule, "log-Tchebycheff");
    expect(await shown(`B${ROWS.gridFirst}`)).toBe("flat oval: equal area only");
    await write(CELLS.rule, null);
    expect(await shown(`B${ROWS.gridFirst}`)).toBe("beside each cell");
    const airflow = await shown(CELLS.airflow);
    await write(CELLS.width, 12);
    await write(CELLS.height, 24);
    expect(await shown(CELLS.airflow)).toBe(airflow);
  });

  it("does not put a flat oval into a sheet that knows none, nor into a row of a list", async () => {
    const host = opened("duct-traverse");
    await host.write([
      { address: { sheet: selected.sheet, range: CELLS.ovalLabel.replaceAll("$", "") }, cells: [[null]] },
    ]);
    expect(await refusal(host, selected, OVAL)).toContain("takes no flat oval duct");
    await put(host, selected, NAVFAC);
    const balance = opened("room-balance");
    const row = { sheet: "Outlets", range: cellUnder(TEMPLATES["room-balance"](""), "Outlets", "R1", 9) };
    expect(await refusal(balance, row, OVAL)).toContain("not flat oval");
  });

  it("refuses a face, and a plan larger than its grid", async () => {
    const host = opened("duct-traverse");
    expect(await refusal(host, selected, SWEEPS)).toContain("a grille was measured");
    const large = { ...NAVFAC, lines: 9, pointsPerLine: 9, readings: Array.from({ length: 81 }, () => 400) };
    expect(await refusal(host, selected, large)).toContain("takes 8 lines of 10 points");
  });
});

describe("no selection", () => {
  it("says to select a cell", async () => {
    const host: InteractiveHost = { ...empty(), selection: async () => null };
    expect(await planPlacement(host, NAVFAC)).toEqual({ refusal: expect.stringContaining("Select one cell") });
  });
});

describe("the result of a measurement", () => {
  it("is none before the first reading, and never takes a missing one for 0", () => {
    const untaken = { ...NAVFAC, readings: NAVFAC.readings.map(() => null) };
    expect(measuredResult(untaken, UNSTATED_JOB)).toBeNull();
    const half = { ...NAVFAC, readings: [400, ...Array.from({ length: 8 }, () => null)] };
    expect(measuredResult(half, UNSTATED_JOB)).toMatchObject({ readingCount: 1, meanVelocity: 400 });
    const dead = { ...NAVFAC, readings: [400, 0, ...Array.from({ length: 7 }, () => null)] };
    expect(measuredResult(dead, UNSTATED_JOB)).toMatchObject({ readingCount: 2, meanVelocity: 200 });
  });

  it("knows what its ± rests on", () => {
    const assumed = measuredResult(FACE_POINTS, UNSTATED_JOB)?.budget;
    expect(assumed?.assumed).toContain("Factor");
    const open = measuredResult({ ...FACE_POINTS, factor: 1 }, { ...UNSTATED_JOB, instrumentPercent: 3 })?.budget;
    expect(open?.rows.map(({ name }) => name)).not.toContain("Factor");
    expect(open?.assumed).not.toContain("Instrument");
  });
});
