import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airflowForLoad, governingAirflow, loadShareAirflow, sensibleHeat } from "../../../src/core/index.js";

const positive = fc.double({ min: 1e-3, max: 1e6, noNaN: true });

describe("a room's share of the system's airflow", () => {
  it("adds up to the whole system over all rooms", () => {
    fc.assert(
      fc.property(fc.array(positive, { minLength: 1, maxLength: 40 }), positive, (loads, systemFlowCfm) => {
        const allLoads = loads.reduce((sum, load) => sum + load, 0);
        const shares = loads.map((load) => loadShareAirflow(Math.min(load, allLoads), allLoads, systemFlowCfm));
        const sum = shares.reduce((total, share) => total + share, 0);
        expect(Math.abs(sum / systemFlowCfm - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("is nothing for a room without a load and everything for the only room", () => {
    expect(loadShareAirflow(0, 36000, 1200)).toBe(0);
    expect(loadShareAirflow(36000, 36000, 1200)).toBe(1200);
  });

  it("refuses a room with more load than all rooms together", () => {
    expect(() => loadShareAirflow(36001, 36000, 1200)).toThrow(
      "roomLoadBtuPerHour must be from 0 to the load of all rooms, but is 36001",
    );
    expect(() => loadShareAirflow(-1, 36000, 1200)).toThrow("roomLoadBtuPerHour");
    expect(() => loadShareAirflow(Number.NaN, 36000, 1200)).toThrow("roomLoadBtuPerHour");
  });

  it("refuses a dwelling without a load and a negative system airflow", () => {
    expect(() => loadShareAirflow(0, 0, 1200)).toThrow("allLoadsBtuPerHour must be above 0");
    expect(() => loadShareAirflow(1, 2, -1)).toThrow("systemFlowCfm must be 0 or more");
  });
});

describe("the airflow that governs a room", () => {
  it("is the larger of the two seasons, and both stay in sight", () => {
    expect(governingAirflow(180, 200)).toEqual({
      heatingFlowCfm: 180,
      coolingFlowCfm: 200,
      designFlowCfm: 200,
      governedBy: "cooling",
    });
    expect(governingAirflow(210, 200)).toMatchObject({ designFlowCfm: 210, governedBy: "heating" });
    expect(governingAirflow(200, 200)).toMatchObject({ designFlowCfm: 200, governedBy: "both" });
  });

  it("takes a room that one season leaves alone", () => {
    expect(governingAirflow(0, 90)).toMatchObject({ designFlowCfm: 90, governedBy: "cooling" });
    expect(governingAirflow(0, 0)).toMatchObject({ designFlowCfm: 0, governedBy: "both" });
  });

  it("refuses a negative or missing airflow and names the season", () => {
    expect(() => governingAirflow(-1, 90)).toThrow("heatingFlowCfm must be 0 or more, but is -1");
    expect(() => governingAirflow(90, Number.NaN)).toThrow("coolingFlowCfm must be 0 or more, but is NaN");
  });
});

describe("the airflow for a load", () => {
  it("carries exactly that load", () => {
    fc.assert(
      fc.property(positive, fc.double({ min: 1, max: 100, noNaN: true }), (load, difference) => {
        const flow = airflowForLoad(load, difference, 0.07);
        expect(Math.abs(sensibleHeat(flow, difference, 0.07) / load - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("grows as the air gets thinner", () => {
    expect(airflowForLoad(6000, 20, 0.06)).toBeGreaterThan(airflowForLoad(6000, 20, 0.075));
  });

  it("is 0 without a load", () => {
    expect(airflowForLoad(0, 20, 0.075)).toBe(0);
  });

  it("refuses what has no answer", () => {
    expect(() => airflowForLoad(-1, 20, 0.075)).toThrow("sensibleLoadBtuPerHour must be 0 or more");
    expect(() => airflowForLoad(6000, 0, 0.075)).toThrow("differenceF must be above 0");
    expect(() => airflowForLoad(6000, 20, 0)).toThrow("densityLbFt3 must be above 0");
    expect(() => airflowForLoad(1e308, 1e-308, 0.075)).toThrow("airflowForLoad must be small enough");
  });
});
