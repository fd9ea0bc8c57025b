import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  airChanges,
  airflowForAirChanges,
  airflowForTons,
  dwellingVentilation,
  localExhaust,
  manufacturedHomeVentilation,
  TEST_RULE_CFM_PER_TON,
  ventilationFanAirflow,
} from "../../../src/core/index.js";

const positive = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

describe("airflow for tons of cooling", () => {
  it("uses 400 cfm per ton in the federal test rule", () => {
    expect(airflowForTons(1, TEST_RULE_CFM_PER_TON)).toBe(400);
    expect(airflowForTons(0, 400)).toBe(0);
  });

  it("refuses a negative capacity and an airflow per ton of 0", () => {
    expect(() => airflowForTons(-1, 400)).toThrow("capacityTons must be 0 or more");
    expect(() => airflowForTons(3, 0)).toThrow("flowCfmPerTon must be above 0");
  });
});

describe("air changes", () => {
  it("turn back into the airflow that they came from", () => {
    fc.assert(
      fc.property(positive, positive, (flow, volume) => {
        expect(Math.abs(airflowForAirChanges(airChanges(flow, volume), volume) / flow - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("are 0 without airflow", () => {
    expect(airChanges(0, 1000)).toBe(0);
    expect(airflowForAirChanges(0, 1000)).toBe(0);
  });

  it("refuse a room without a volume and airflow below 0", () => {
    expect(() => airChanges(100, 0)).toThrow("volumeFt3 must be above 0");
    expect(() => airChanges(-1, 10)).toThrow("flowCfm must be 0 or more");
    expect(() => airflowForAirChanges(6, 0)).toThrow("volumeFt3 must be above 0");
    expect(() => airflowForAirChanges(-6, 10)).toThrow("changesPerHour must be 0 or more");
  });
});

describe("whole-dwelling ventilation", () => {
  it("never mixes the rates of two editions", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 100, max: 20000, noNaN: true }),
        fc.integer({ min: 1, max: 9 }),
        (area, bedrooms) => {
          const newer = dwellingVentilation(area, bedrooms, "62.2-2019");
          const older = dwellingVentilation(area, bedrooms, "62.2-2010");
          expect(Math.abs(newer - older - 0.02 * area)).toBeLessThan(1e-9 * newer);
        },
      ),
    );
  });

  it("refuses an edition that it does not know, and says which ones it does", () => {
    const edition = "62.2-1999" as unknown as "62.2-2019";
    expect(() => dwellingVentilation(1800, 3, edition)).toThrow(
      "edition must be 62.2-2019 or 62.2-2010, but is 62.2-1999",
    );
    expect(() => dwellingVentilation(1800, 3, "toString" as unknown as "62.2-2019")).toThrow("edition");
  });

  it("refuses a dwelling without floor or with part of a bedroom", () => {
    expect(() => dwellingVentilation(0, 3, "62.2-2019")).toThrow("floorAreaFt2 must be above 0");
    expect(() => dwellingVentilation(1800, 0, "62.2-2019")).toThrow("bedroomCount must be a whole number of 1 or more");
    expect(() => dwellingVentilation(1800, 2.5, "62.2-2019")).toThrow("bedroomCount");
    expect(() => manufacturedHomeVentilation(0)).toThrow("floorAreaFt2 must be above 0");
  });

  it("changes from the least rate of a manufactured home to the rate by area without a step", () => {
    expect(manufacturedHomeVentilation(50 / 0.035)).toBeCloseTo(50, 9);
    expect(manufacturedHomeVentilation(1500)).toBeCloseTo(52.5, 9);
  });
});

describe("the credit for infiltration", () => {
  it("is never larger for an unbalanced fan than for a balanced one", () => {
    fc.assert(
      fc.property(
        positive,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (total, part, exterior) => {
          const infiltration = part * total;
          const balanced = ventilationFanAirflow(total, infiltration, exterior, "balanced");
          const unbalanced = ventilationFanAirflow(total, infiltration, exterior, "unbalanced");
          expect(unbalanced).toBeGreaterThanOrEqual(balanced - 1e-9 * total);
          expect(unbalanced).toBeLessThanOrEqual(total);
        },
      ),
    );
  });

  it("is nothing without infiltration or without an envelope to the outdoors", () => {
    expect(ventilationFanAirflow(84, 0, 1, "balanced")).toBe(84);
    expect(ventilationFanAirflow(84, 42, 0, "unbalanced")).toBe(84);
  });

  it("refuses what it cannot weigh", () => {
    expect(() => ventilationFanAirflow(0, 42, 1, "balanced")).toThrow("totalFlowCfm must be above 0");
    expect(() => ventilationFanAirflow(84, -1, 1, "balanced")).toThrow("infiltrationFlowCfm must be 0 or more");
    expect(() => ventilationFanAirflow(84, 42, 1.01, "balanced")).toThrow("exteriorRatio must be from 0 to 1");
    expect(() => ventilationFanAirflow(84, 42, 1, "both" as unknown as "balanced")).toThrow(
      "kind must be balanced or unbalanced, but is both",
    );
  });
});

describe("local exhaust", () => {
  it("needs the volume only where the rule counts air changes", () => {
    expect(localExhaust("bath-on-demand", Number.NaN)).toBe(50);
    expect(() => localExhaust("kitchen-continuous", 0)).toThrow("volumeFt3 must be above 0");
  });

  it("refuses a row that the table lacks, and lists the rows", () => {
    expect(() => localExhaust("sauna" as unknown as "bath-on-demand", 0)).toThrow(
      /kind must be one of kitchen-on-demand, .*manufactured-home-bath, but is sauna/,
    );
    expect(() => localExhaust("constructor" as unknown as "bath-on-demand", 0)).toThrow("kind must be one of");
  });
});
