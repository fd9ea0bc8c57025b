import fc from "fast-check";
import psychrolib from "psychrolib";
import { beforeAll, describe, expect, it } from "vitest";
import {
  actualVelocity,
  airDensity,
  airDensityAtPressure,
  humidityRatio,
  moistAirDensity,
  pressureAtElevation,
  saturationPressure,
  standardAirflow,
  standardVelocity,
} from "../../../src/core/index.js";
import { density, expectRefusal, expectSame, NOT_NUMBERS, signed } from "../numbers.js";

const temperature = fc.double({ min: -40, max: 150, noNaN: true });
const elevation = fc.double({ min: -1000, max: 15_000, noNaN: true });
const humidity = fc.double({ min: 0, max: 100, noNaN: true });

describe("air against psychrolib 1.1.1", () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.IP));

  it("has the same pressure at every elevation", () => {
    fc.assert(
      fc.property(elevation, (ft) => expectSame(pressureAtElevation(ft), psychrolib.GetStandardAtmPressure(ft))),
    );
  });

  it("has the same vapor pressure over ice and over water", () => {
    fc.assert(
      fc.property(fc.double({ min: -148, max: 392, noNaN: true }), (tempF) => {
        // psychrolib changes from ice to water at 32.018 degF as well.
        expectSame(saturationPressure(tempF), psychrolib.GetSatVapPres(tempF));
      }),
    );
  });

  it("has the same humidity ratio and density", () => {
    fc.assert(
      fc.property(temperature, elevation, humidity, (tempF, ft, percent) => {
        const psi = pressureAtElevation(ft);
        const w = psychrolib.GetHumRatioFromRelHum(tempF, percent / 100, psi);
        // psychrolib never lets a humidity ratio fall below 1e-7.
        if (w > 1e-7) expectSame(humidityRatio(tempF, percent, psi), w);
        expectSame(airDensity(tempF, ft, percent), psychrolib.GetMoistAirDensity(tempF, w, psi), 1e-7);
      }),
    );
  });
});

describe("air", () => {
  it("gets thinner with warmth, with height and with moisture", () => {
    const step = fc.double({ min: 0.5, max: 20, noNaN: true });
    fc.assert(
      fc.property(temperature, elevation, fc.double({ min: 0, max: 80, noNaN: true }), step, (t, ft, rh, more) => {
        const here = airDensity(t, ft, rh);
        expect(airDensity(t + more, ft, rh)).toBeLessThan(here);
        expect(airDensity(t, ft + more, rh)).toBeLessThan(here);
        expect(airDensity(t, ft, rh + more)).toBeLessThan(here);
      }),
    );
  });

  it("is by elevation what it is at the pressure of that elevation", () => {
    expect(airDensity(60, 3000, 40)).toBe(airDensityAtPressure(60, pressureAtElevation(3000), 40));
  });

  it("reaches 0.075 lb/ft3 at 69.2 degF when dry at sea level", () => {
    expect(Math.abs(airDensity(69.22, 0, 0) - 0.075)).toBeLessThan(1e-6);
  });

  it("has no step in its vapor pressure where ice turns to water", () => {
    expectSame(saturationPressure(32.017), saturationPressure(32.019), 2e-4);
  });
});

describe("standard and actual", () => {
  it("undo each other", () => {
    fc.assert(
      fc.property(signed, density, (value, rho) => {
        expectSame(actualVelocity(standardVelocity(value, rho), rho), value);
      }),
    );
  });

  it("are the same in standard air", () => {
    expect([actualVelocity(500, 0.075), standardVelocity(500, 0.075)]).toEqual([500, 500]);
  });

  it("carry the same mass", () => {
    fc.assert(fc.property(signed, density, (flow, rho) => expectSame(standardAirflow(flow, rho) * 0.075, flow * rho)));
  });

  it("refuse what is no velocity, airflow or density", () => {
    const conversions = [
      [actualVelocity, "standardVelocityFpm"],
      [standardVelocity, "velocityFpm"],
      [standardAirflow, "flowCfm"],
    ] as const;
    for (const [convert, parameter] of conversions) {
      for (const value of NOT_NUMBERS) expectRefusal(() => convert(value, 0.075), parameter, "a finite number", value);
      for (const rho of [0, -1, ...NOT_NUMBERS]) expectRefusal(() => convert(1, rho), "densityLbFt3", "above 0", rho);
    }
  });

  it("refuse what would overflow", () => {
    const tooLarge = "small enough to calculate with";
    expectRefusal(() => actualVelocity(1e300, 1e-300), "velocity", tooLarge);
    expectRefusal(() => standardVelocity(1e300, 1e300), "velocity", tooLarge);
    expectRefusal(() => standardAirflow(1e300, 1e300), "airflow", tooLarge);
  });
});

describe("air that cannot be", () => {
  it("is refused outside the range of the pressure formula, whose ends belong to it", () => {
    expect(pressureAtElevation(-16_500)).toBeGreaterThan(20);
    expect(pressureAtElevation(36_000)).toBeGreaterThan(3);
    for (const ft of [-16_501, 36_001, ...NOT_NUMBERS]) {
      expectRefusal(() => pressureAtElevation(ft), "elevationFt", "from -16500 to 36000", ft);
      expectRefusal(() => airDensity(70, ft, 0), "elevationFt", "from -16500 to 36000", ft);
    }
  });

  it("is refused outside the range of the vapor pressure formula, whose ends belong to it", () => {
    expect(saturationPressure(-148)).toBeGreaterThan(0);
    expect(saturationPressure(392)).toBeGreaterThan(200);
    for (const tempF of [-148.1, 392.1, ...NOT_NUMBERS]) {
      expectRefusal(() => saturationPressure(tempF), "tempF", "from -148 to 392", tempF);
      expectRefusal(() => moistAirDensity(tempF, 0, 14.7), "tempF", "from -148 to 392", tempF);
      expectRefusal(() => airDensity(tempF, 0, 50), "tempF", "from -148 to 392", tempF);
    }
  });

  it("is refused with less than no moisture or more than saturated", () => {
    for (const percent of [-0.1, 100.1, ...NOT_NUMBERS]) {
      expectRefusal(() => humidityRatio(70, percent, 14.7), "relativeHumidityPercent", "from 0 to 100", percent);
    }
    for (const w of [-0.001, ...NOT_NUMBERS]) {
      expectRefusal(() => moistAirDensity(70, w, 14.7), "humidityRatio", "0 or more", w);
    }
  });

  it("is refused without pressure", () => {
    for (const psi of [0, -1, ...NOT_NUMBERS]) {
      expectRefusal(() => humidityRatio(70, 50, psi), "pressurePsi", "above 0", psi);
      expectRefusal(() => moistAirDensity(70, 0.01, psi), "pressurePsi", "above 0", psi);
      expectRefusal(() => airDensityAtPressure(70, psi, 50), "pressurePsi", "above 0", psi);
    }
  });

  it("is refused where its water would boil", () => {
    // Steam tables give 67.0 psi at 300 degF (from memory).
    expect(() => humidityRatio(300, 100, 14.696)).toThrow(
      /^pressurePsi must be above the vapor pressure, 67\.0\d, but is 14\.696$/,
    );
    expect(humidityRatio(300, 0, 14.696)).toBe(0);
    const boiling = saturationPressure(212);
    expect(() => humidityRatio(212, 100, boiling)).toThrow("pressurePsi must be above the vapor pressure");
  });
});
