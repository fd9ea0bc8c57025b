import { describe, expect, it } from "vitest";
import { CellError } from "../../src/cells/index.js";
import { callCell, expectCellError } from "./call-cell.js";

describe("DESIGN.SHARE", () => {
  it("shares the system's airflow among a column of rooms, blank rows staying empty", () => {
    const loads = [[6000], [12000], [0], [18000]];
    expect(callCell("DESIGN.SHARE", loads, loads, 1200)).toEqual([[200], [400], [""], [600]]);
  });

  it("takes the sum of the loads as well as their column", () => {
    expect(callCell("DESIGN.SHARE", 6000, 36000, 1200)).toBe(200);
  });

  it("asks for the loads and the system's airflow", () => {
    expectCellError(callCell("DESIGN.SHARE", 6000, [[0], [0]], 1200), "#N/A", "allLoads is missing");
    expectCellError(callCell("DESIGN.SHARE", 6000, 36000, 0), "#N/A", "systemAirflow is missing");
  });

  it("refuses a room above the sum, a load below 0 and text, and says where", () => {
    expectCellError(
      callCell("DESIGN.SHARE", 6000, 5000, 1200),
      "#VALUE!",
      "roomLoad must be from 0 to the load of all rooms.",
    );
    expectCellError(
      callCell("DESIGN.SHARE", 6000, [[6000], [-1]], 1200),
      "#VALUE!",
      "allLoads, row 2, column 1, is below 0",
    );
    expectCellError(callCell("DESIGN.SHARE", 6000, [[6000, "hall"]], 1200), "#VALUE!", "allLoads, row 1, column 2,");
  });
});

describe("DESIGN.ROOMS", () => {
  it("shows both seasons, the larger, and the one that governs", () => {
    expect(callCell("DESIGN.ROOMS", [[10000], [30000], [0]], [[6000], [6000], [0]], 1000, 1200)).toEqual([
      [250, 600, 600, "cooling"],
      [750, 600, 750, "heating"],
      ["", "", "", ""],
    ]);
  });

  it("leaves the season without a load empty instead of 0", () => {
    expect(callCell("DESIGN.ROOMS", [[0], [30000]], [[6000], [6000]], 1000, 1200)).toEqual([
      ["", 600, 600, "cooling"],
      [1000, 600, 1000, "heating"],
    ]);
  });

  it("keeps an error in the row that has it", () => {
    const rows = callCell("DESIGN.ROOMS", [[10000], [30000]], [[0], [6000]], 1000, 0) as unknown[][];
    expect(rows[0]).toEqual([250, "", 250, "heating"]);
    expectCellError(rows[1]?.[2], "#N/A", "coolingAirflow is missing");
    expect(rows[1]?.[0]).toBe("");
  });

  it("refuses columns of unlike height", () => {
    expectCellError(
      callCell("DESIGN.ROOMS", [[1], [2]], [[1]], 1, 1),
      "#VALUE!",
      "heatingLoads has 2 rows, but coolingLoads has 1",
    );
  });
});

describe("DESIGN.LOAD", () => {
  it("uses standard air where no density is given", () => {
    expect(callCell("DESIGN.LOAD", 6000, 20, null)).toBeCloseTo(277.78, 2);
    expect(callCell("DESIGN.LOAD", 6000, 20, 0.075)).toBe(callCell("DESIGN.LOAD", 6000, 20, 0));
  });

  it("gives in SI the same airflow as in inch-pound", () => {
    const ip = callCell("DESIGN.LOAD", 6000, 18, 0.07) as number;
    const si = callCell("DESIGN.LOAD", 6000 * 0.29307107017, 10, 0.07 * 16.01846337396, "si") as number;
    expect(si / 0.4719474432).toBeCloseTo(ip, 6);
  });

  it("takes a column of loads at one difference, and stays empty without a load", () => {
    const result = callCell("DESIGN.LOAD", [[6000], [0], [3000]], 20) as number[][];
    expect(result[0]?.[0]).toBeCloseTo(277.78, 2);
    expect(result[1]?.[0]).toBe("");
    expect(result[2]?.[0]).toBeCloseTo(138.89, 2);
  });

  it("asks for the difference and refuses one below 0", () => {
    expectCellError(callCell("DESIGN.LOAD", 6000, 0), "#N/A", "difference is missing");
    expectCellError(callCell("DESIGN.LOAD", 6000, -20), "#VALUE!", "difference must be above 0.");
    expectCellError(callCell("DESIGN.LOAD", -1, 20), "#VALUE!", "sensible must be 0 or more.");
  });
});

describe("DESIGN.TONS and DESIGN.CHANGES", () => {
  it("use 400 cfm per ton where nothing else is given", () => {
    expect(callCell("DESIGN.TONS", 3, null)).toBe(1200);
    expect(callCell("DESIGN.TONS", [[3], [0]], 350)).toEqual([[1050], [""]]);
  });

  it("take kW and L/s per kW in SI", () => {
    // 3 tons are 10.550559 kW (NIST SP 811: 3516.853 W); 400 cfm per ton are 53.68 L/s per kW
    expect(callCell("DESIGN.TONS", 10.550559, null, "si")).toBeCloseTo(1200 * 0.4719474432, 3);
    expect(callCell("DESIGN.TONS", 10, 50, "si")).toBeCloseTo(500, 9);
    expectCellError(callCell("DESIGN.TONS", 3, -1), "#VALUE!", "perTon must be above 0.");
    expectCellError(callCell("DESIGN.TONS", -3), "#VALUE!", "capacity must be 0 or more.");
  });

  it("turn air changes into airflow", () => {
    expect(callCell("DESIGN.CHANGES", 6, 3360)).toBe(336);
    expect(callCell("DESIGN.CHANGES", 0.35, 450, "si")).toBeCloseTo(43.75, 9);
    expect(callCell("DESIGN.CHANGES", 6, [[3360], [0]])).toEqual([[336], [""]]);
    expectCellError(callCell("DESIGN.CHANGES", 0, 3360), "#N/A", "changes is missing");
    expectCellError(callCell("DESIGN.CHANGES", 6, -1), "#VALUE!", "volume must be above 0.");
    expectCellError(callCell("DESIGN.CHANGES", 6, 3360, "metric"), "#VALUE!", "units must be");
  });
});

describe("ventilation", () => {
  it("names the edition by its year or in full, the latest where none is given", () => {
    expect(callCell("DESIGN.VENTILATION", 1800, 3)).toBeCloseTo(84, 12);
    for (const edition of [2010, "2010", "62.2-2010", " 62.2-2010 "]) {
      expect(callCell("DESIGN.VENTILATION", 1800, 3, edition)).toBeCloseTo(48, 12);
    }
    expectCellError(
      callCell("DESIGN.VENTILATION", 1800, 3, 1999),
      "#VALUE!",
      "edition must be one of: 62.2-2019, 62.2-2010.",
    );
  });

  it("asks for the bedrooms and refuses half of one", () => {
    expectCellError(callCell("DESIGN.VENTILATION", 1800, 0), "#N/A", "bedrooms is missing");
    expectCellError(
      callCell("DESIGN.VENTILATION", 1800, 2.5),
      "#VALUE!",
      "bedrooms must be a whole number of 1 or more.",
    );
    expect(callCell("DESIGN.VENTILATION", [[0], [1800]], [[0], [3]])).toEqual([[""], [expect.closeTo(84, 9)]]);
  });

  it("converts floor and airflow in SI", () => {
    expect(callCell("DESIGN.VENTILATION", 100, 2, null, "si")).toBeCloseTo(
      ((0.03 * 100) / 0.09290304) * 0.4719474432 + 22.5 * 0.4719474432,
      9,
    );
    expect(callCell("DESIGN.MANUFACTUREDHOME", 50, "si")).toBeCloseTo(50 * 0.4719474432, 9);
    expect(callCell("DESIGN.MANUFACTUREDHOME", [[1200], [0], [1800]])).toEqual([[50], [""], [expect.closeTo(63, 9)]]);
  });

  it("credits infiltration by the kind of system, fully to the outdoors unless told", () => {
    expect(callCell("DESIGN.VENTILATIONFAN", 84, 42, "Balanced")).toBe(42);
    expect(callCell("DESIGN.VENTILATIONFAN", 84, 42, "unbalanced", null)).toBe(63);
    expect(callCell("DESIGN.VENTILATIONFAN", 84, 42, "unbalanced", 0)).toBe(84);
    expect(callCell("DESIGN.VENTILATIONFAN", 0, 0, "balanced")).toBe("");
    expectCellError(
      callCell("DESIGN.VENTILATIONFAN", 84, 42, "supply only"),
      "#VALUE!",
      "kind must be one of: balanced, unbalanced.",
    );
    expectCellError(callCell("DESIGN.VENTILATIONFAN", 84, 42, 0), "#N/A", "kind is missing");
    expectCellError(
      callCell("DESIGN.VENTILATIONFAN", 84, 42, new CellError("#REF!", "gone")),
      "#REF!",
      "kind is in error",
    );
    expectCellError(
      callCell("DESIGN.VENTILATIONFAN", 84, 42, "balanced", 2),
      "#VALUE!",
      "exterior must be from 0 to 1.",
    );
  });

  it("reads a row of the exhaust table in any spelling of its words", () => {
    expect(callCell("DESIGN.EXHAUST", [["Bath on demand"], ["bath_continuous"], [0]])).toEqual([[50], [20], [""]]);
    expect(callCell("DESIGN.EXHAUST", "kitchen-continuous", 1200)).toBe(100);
    expect(callCell("DESIGN.EXHAUST", "kitchen-continuous", 34, "si")).toBeCloseTo((34 * 5) / 3.6, 9);
    expectCellError(callCell("DESIGN.EXHAUST", "kitchen-continuous", 0), "#N/A", "volume is missing");
    expectCellError(callCell("DESIGN.EXHAUST", "sauna"), "#VALUE!", "kind must be one of: kitchen-on-demand");
  });
});
