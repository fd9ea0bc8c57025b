import fc from "fast-check";
import psychrolib from "psychrolib";
import { beforeAll, describe, expect, it } from "vitest";
import {
  airflowFromTemperatureRise,
  latentHeat,
  outsideAirShare,
  sensibleHeat,
  sensibleHeatFactor,
  totalHeat,
} from "../../../src/core/index.js";

const positive = fc.double({ min: 1e-2, max: 1e5, noNaN: true });

describe("the heat that air carries", () => {
  it("has the sign of the difference", () => {
    expect(sensibleHeat(1000, -20, 0.075)).toBeCloseTo(-21600, 6);
    expect(latentHeat(1000, -0.002, 0.075)).toBeCloseTo(-9684, 6);
    expect(totalHeat(1000, -8, 0.075)).toBeCloseTo(-36000, 6);
    expect(sensibleHeat(1000, 0, 0.075)).toBe(0);
  });

  it("scales with density, airflow and difference", () => {
    fc.assert(
      fc.property(positive, positive, (flow, difference) => {
        expect(sensibleHeat(2 * flow, difference, 0.05) / sensibleHeat(flow, difference, 0.05)).toBeCloseTo(2, 12);
        expect(latentHeat(flow, 3 * difference, 0.05) / latentHeat(flow, difference, 0.05)).toBeCloseTo(3, 12);
        expect(totalHeat(flow, difference, 0.1) / totalHeat(flow, difference, 0.05)).toBeCloseTo(2, 12);
      }),
    );
  });

  it("is sensible and latent together where enthalpy is 0.24 T + 1076 W", () => {
    const parts = sensibleHeat(900, 15, 0.072) + latentHeat(900, 0.003, 0.072);
    expect(totalHeat(900, 0.24 * 15 + 1076 * 0.003, 0.072)).toBeCloseTo(parts, 6);
  });

  it("refuses air without density and numbers that are none", () => {
    expect(() => sensibleHeatFactor(0)).toThrow("densityLbFt3 must be above 0");
    expect(() => sensibleHeat(1000, 20, -1)).toThrow("densityLbFt3 must be above 0");
    expect(() => sensibleHeat(Number.NaN, 20, 0.075)).toThrow("flowCfm must be a finite number");
    expect(() => sensibleHeat(1, Number.NaN, 0.075)).toThrow("differenceF must be a finite number");
    expect(() => latentHeat(Number.NaN, 0.002, 0.075)).toThrow("flowCfm must be a finite number");
    expect(() => latentHeat(1000, Number.NaN, 0.075)).toThrow("differenceRatio must be a finite number");
    expect(() => latentHeat(1000, 0.002, 0)).toThrow("densityLbFt3 must be above 0");
    expect(() => totalHeat(Number.NaN, 8, 0.075)).toThrow("flowCfm must be a finite number");
    expect(() => totalHeat(1000, Number.NaN, 0.075)).toThrow("differenceBtuPerLb must be a finite number");
    expect(() => totalHeat(1000, 8, 0)).toThrow("densityLbFt3 must be above 0");
    expect(() => totalHeat(1e308, 1e308, 0.075)).toThrow("totalHeat must be small enough");
  });
});

describe("airflow from a temperature rise", () => {
  it("carries the output at that rise", () => {
    fc.assert(
      fc.property(positive, fc.double({ min: 1, max: 100, noNaN: true }), (output, rise) => {
        const flow = airflowFromTemperatureRise(output, 60, 60 + rise, 0.07);
        expect(Math.abs(sensibleHeat(flow, 60 + rise - 60, 0.07) / output - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("takes entering air at and below 0 degrees", () => {
    expect(airflowFromTemperatureRise(64800, 0, 50, 0.075)).toBeCloseTo(1200, 9);
    expect(airflowFromTemperatureRise(64800, -10, 40, 0.075)).toBeCloseTo(1200, 9);
  });

  it("refuses a heater that does not warm the air", () => {
    expect(() => airflowFromTemperatureRise(64800, 70, 70, 0.075)).toThrow(
      "leavingF must be above the entering temperature, but is 70",
    );
    expect(() => airflowFromTemperatureRise(64800, 70, 60, 0.075)).toThrow("leavingF");
    expect(() => airflowFromTemperatureRise(0, 70, 120, 0.075)).toThrow("outputBtuPerHour must be above 0");
    expect(() => airflowFromTemperatureRise(64800, Number.NaN, 120, 0.075)).toThrow(
      "enteringF must be a finite number",
    );
    expect(() => airflowFromTemperatureRise(64800, 70, Number.POSITIVE_INFINITY, 0.075)).toThrow(
      "leavingF must be a finite number",
    );
    expect(() => airflowFromTemperatureRise(64800, 70, 120, 0)).toThrow("densityLbFt3 must be above 0");
  });
});

describe("the share of outside air from three temperatures", () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.IP));

  /** The most that the moisture's heat moves it: half and half, 110 °F at 80 % into 68 °F at 5 %, by psychrolib 0.0203. */
  const MOISTURE_ERROR = 0.0204;

  it("is that of the enthalpy balance by psychrolib 1.1.1, but for the heat of the moisture", () => {
    const pressure = 14.696;
    const share = fc.double({ min: 0.05, max: 0.95, noNaN: true });
    const outside = fc.oneof(
      fc.double({ min: -10, max: 55, noNaN: true }),
      fc.double({ min: 85, max: 110, noNaN: true }),
    );
    const inside = fc.double({ min: 68, max: 78, noNaN: true });
    const dampness = fc.double({ min: 0.05, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(share, outside, dampness, inside, dampness, (part, outsideF, outsideRh, returnF, returnRh) => {
        const outsideW = psychrolib.GetHumRatioFromRelHum(outsideF, outsideRh, pressure);
        const returnW = psychrolib.GetHumRatioFromRelHum(returnF, returnRh, pressure);
        const enthalpy =
          part * psychrolib.GetMoistAirEnthalpy(outsideF, outsideW) +
          (1 - part) * psychrolib.GetMoistAirEnthalpy(returnF, returnW);
        const mixedF = psychrolib.GetTDryBulbFromEnthalpyAndHumRatio(enthalpy, part * outsideW + (1 - part) * returnW);
        expect(Math.abs(outsideAirShare(returnF, outsideF, mixedF) - part)).toBeLessThan(MOISTURE_ERROR);
      }),
    );
  });

  it("is nothing where the mixed air is return air, and all where it is outside air", () => {
    expect(outsideAirShare(75, 35, 75)).toBe(0);
    expect(outsideAirShare(75, 35, 35)).toBe(1);
    expect(outsideAirShare(70, 95, 95)).toBe(1);
  });

  it("refuses temperatures that tell nothing", () => {
    expect(() => outsideAirShare(70, 70, 70)).toThrow("outsideAirF must be other than the return temperature");
    expect(() => outsideAirShare(75, 35, 76)).toThrow("mixedAirF must be from the outside to the return temperature");
    expect(() => outsideAirShare(75, 35, 34)).toThrow("mixedAirF must be from the outside to the return temperature");
    expect(() => outsideAirShare(Number.NaN, 35, 67)).toThrow("returnAirF must be");
  });
});
