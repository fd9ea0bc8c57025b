import { describe, expect, it } from "vitest";
import { calculatePlan } from "../../../src/tools/templates/calculate-plan.js";
import { TEMPLATES } from "../../../src/workbook/index.js";
import { cellUnder } from "../../support/plan-places.js";

/*
 * A room balance that is half done. Every face is one free square foot (12 x 12 in, factor 1), so that the mean of the
 * readings in fpm is the airflow in cfm.
 */

type Outlet = readonly [tag: string, room: string, kind: string, design: number, velocity: number | null];

const ROOMS = ["Hall", "Bath", "Attic"];

const PLAN = TEMPLATES["room-balance"]("");

/** One row of a table by its headers. */
function tableRow(table: string, row: number, cells: Readonly<Record<string, string | number | null>>) {
  return Object.fromEntries(
    Object.entries(cells).flatMap(([header, value]) =>
      value === null ? [] : [[cellUnder(PLAN, table, header, row), value]],
    ),
  );
}

/** What stands in the tables Rooms and Systems, by header, for a balance with these outlets. */
function balance(outlets: readonly Outlet[]) {
  const outletCells = outlets.map(([tag, room, kind, design, velocity], index) =>
    tableRow("Outlets", 9 + index, {
      Outlet: tag,
      System: "AHU-1",
      Room: room,
      Kind: kind,
      "Width or diameter": 12,
      Height: 12,
      Factor: 1,
      "Design airflow": design,
      R1: velocity,
    }),
  );
  const results = calculatePlan(PLAN, {
    Outlets: Object.assign({}, ...outletCells),
    Rooms: Object.assign(
      {},
      ...ROOMS.map((room, index) => tableRow("Rooms", 6 + index, { Room: room, System: "AHU-1", "Design set": 200 })),
    ),
    Systems: tableRow("Systems", 6, { System: "AHU-1", "Supply design": 600 }),
  });
  const shown = (sheet: string, row: number, header: string) => {
    return results.get(sheet)?.get(cellUnder(PLAN, sheet, header, row))?.value;
  };
  return {
    room: (name: string, header: string) => shown("Rooms", 6 + ROOMS.indexOf(name), header),
    system: (header: string) => shown("Systems", 6, header),
  };
}

describe("a room balance that is half done", () => {
  const outlets: readonly Outlet[] = [
    ["S1", "Hall", "supply", 100, 100],
    ["S2", "Hall", "supply", 100, null],
    ["S3", "Bath", "supply", 200, 150],
    ["R1", "Hall", "return", 400, null],
  ];

  it("calls a room part measured until each of its supply outlets has a reading, and judges it then", () => {
    const half = balance(outlets);
    expect(half.room("Hall", "Supply measured")).toBe(100);
    expect(half.room("Hall", "Verdict")).toBe("part measured");
    expect(half.room("Bath", "Verdict")).toBe("low");
    expect(half.system("Verdict")).toBe("part measured");
    const whole = balance(outlets.map((one) => (one[0] === "S2" ? ["S2", "Hall", "supply", 100, 95] : one)));
    expect(whole.room("Hall", "Verdict")).toBe("within");
    expect(whole.system("Verdict")).toBe("low");
  });

  it("leaves the design of outlets empty where a room lists none: nothing is not zero", () => {
    const half = balance(outlets);
    expect(half.room("Hall", "Design of outlets")).toBe(200);
    expect(half.room("Attic", "Design of outlets")).toBe("");
    expect(half.room("Attic", "Verdict")).toBe("");
  });

  it("takes return and exhaust from the supply only once all of each is measured", () => {
    const room = "Supply less return and exhaust";
    const system = "Supply less return and outside air";
    const half = balance(outlets);
    expect(half.room("Hall", room)).toBe("");
    // No return is listed in the bath, so that all of its air leaves by the door.
    expect(half.room("Bath", room)).toBe(150);
    expect(half.system(system)).toBe("");
    const measured: readonly Outlet[] = [
      ["S1", "Hall", "supply", 100, 100],
      ["S2", "Hall", "supply", 100, 95],
      ["S3", "Bath", "supply", 200, 150],
    ];
    const noReturn = balance(measured);
    expect(noReturn.room("Hall", room)).toBe(195);
    expect(noReturn.system(system)).toBe("");
    const whole = balance([...measured, ["R1", "Hall", "return", 400, 320]]);
    expect(whole.room("Hall", room)).toBe(-125);
    expect(whole.system(system)).toBe(25);
  });
});

describe("the ± of a room and of a system", () => {
  /** Faces of one free square foot, each read at one point, by a meter of ±6 %. */
  function judged(rule: string, velocities: readonly number[], factor: number | null) {
    const rows = velocities.map((velocity, index) =>
      tableRow("Outlets", 9 + index, {
        Outlet: `S${index + 1}`,
        System: "AHU-1",
        Room: "Hall",
        Kind: "supply",
        "Width or diameter": 12,
        Height: 12,
        Factor: factor,
        "Design airflow": 100,
        R1: velocity,
      }),
    );
    const at = (name: string) => PLAN.names.find((one) => one.name === name)?.refersTo.replace(/^.*!|\$/g, "") ?? "";
    const results = calculatePlan(PLAN, {
      Job: { [at("Job_InstrumentPercent")]: 6, [at("Job_DecisionRule")]: rule },
      Outlets: Object.assign({}, ...rows),
      Rooms: tableRow("Rooms", 6, { Room: "Hall", System: "AHU-1", "Design set": 100 * velocities.length }),
      Systems: tableRow("Systems", 6, { System: "AHU-1", "Supply design": 100 * velocities.length }),
    });
    const shown = (sheet: string, row: number, header: string) =>
      results.get(sheet)?.get(cellUnder(PLAN, sheet, header, row))?.value;
    return { shown, outlet: Number(shown("Outlets", 9, "± (95 %)")) };
  }

  it("adds what the meter is off, and what each outlet has of its own as squares (by hand)", () => {
    const { shown, outlet } = judged("simple", [100, 100, 100, 100], 1);
    // The meter: 2 · 6 / √3 = 6.928 of each 100, 27.71 of four; the rest of each ± is its own, twice as much for four.
    const own = 2 * Math.sqrt(outlet ** 2 - 6.9282 ** 2);
    expect(shown("Rooms", 6, "± (95 %)")).toBeCloseTo(Math.hypot(4 * 6.9282, own), 3);
    expect(shown("Systems", 6, "± (95 %)")).toBeCloseTo(Math.hypot(4 * 6.9282, own), 3);
    expect(Number(shown("Rooms", 6, "± (95 %)"))).toBeLessThan(4 * outlet);
  });

  it("is that of the outlet where there is but one, with an assumed factor too", () => {
    for (const factor of [1, 0.8, null]) {
      const { shown, outlet } = judged("simple", [100], factor);
      expect(shown("Rooms", 6, "± (95 %)")).toBeCloseTo(outlet, 9);
    }
  });

  it("leaves the verdict of a sum open under the guarded rule, and as measured under the simple one", () => {
    const velocities = [100, 100, 100, 100];
    expect(judged("simple", velocities, 1).shown("Rooms", 6, "Verdict")).toBe("within");
    expect(judged("guarded", velocities, 1).shown("Rooms", 6, "Verdict")).toBe("open");
    expect(judged("guarded", velocities, 1).shown("Systems", 6, "Verdict")).toBe("open");
    expect(judged("guarded", [20, 20, 20, 20], 1).shown("Systems", 6, "Verdict")).toBe("low");
  });
});
