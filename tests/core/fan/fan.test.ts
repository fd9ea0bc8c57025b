import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  fanAirflowAtSpeed,
  fanMotorCaution,
  fanPowerAtSpeed,
  fanPressureAtSpeed,
  fanSpeedForAirflow,
} from "../../../src/core/index.js";

const speed = fc.double({ min: 50, max: 5000, noNaN: true });
const density = fc.double({ min: 0.04, max: 0.09, noNaN: true });

describe("the fan laws", () => {
  it("come back to the start by way of another speed", () => {
    fc.assert(
      fc.property(speed, speed, density, density, (here, there, thin, thick) => {
        const flow = fanAirflowAtSpeed(fanAirflowAtSpeed(1000, here, there), there, here);
        const pressure = fanPressureAtSpeed(fanPressureAtSpeed(2, here, there, thin, thick), there, here, thick, thin);
        const power = fanPowerAtSpeed(fanPowerAtSpeed(3, here, there, thin, thick), there, here, thick, thin);
        expect(flow).toBeCloseTo(1000, 8);
        expect(pressure).toBeCloseTo(2, 10);
        expect(power).toBeCloseTo(3, 10);
      }),
    );
  });

  it("give the speed that brings the wanted airflow", () => {
    fc.assert(
      fc.property(speed, fc.double({ min: 10, max: 1e4, noNaN: true }), (present, wanted) => {
        const found = fanSpeedForAirflow(present, 800, wanted);
        expect(fanAirflowAtSpeed(800, present, found)).toBeCloseTo(wanted, 7);
      }),
    );
  });

  it("keep power in step with airflow times pressure", () => {
    fc.assert(
      fc.property(speed, speed, density, density, (here, there, thin, thick) => {
        const flowRatio = fanAirflowAtSpeed(1, here, there);
        const pressureRatio = fanPressureAtSpeed(1, here, there, thin, thick);
        const powerRatio = fanPowerAtSpeed(1, here, there, thin, thick);
        expect(Math.abs(powerRatio / (flowRatio * pressureRatio) - 1)).toBeLessThan(1e-12);
      }),
    );
  });

  it("refuse what is no speed, density or airflow, and name it", () => {
    expect(() => fanAirflowAtSpeed(-1, 1, 1)).toThrow("flowCfm must be 0 or more");
    expect(() => fanAirflowAtSpeed(1, 0, 1)).toThrow("speedRpm must be above 0");
    expect(() => fanAirflowAtSpeed(1, 1, 0)).toThrow("newSpeedRpm must be above 0");
    expect(() => fanSpeedForAirflow(0, 1, 1)).toThrow("speedRpm must be above 0");
    expect(() => fanSpeedForAirflow(1, 0, 1)).toThrow("flowCfm must be above 0");
    expect(() => fanSpeedForAirflow(1, 1, 0)).toThrow("wantedFlowCfm must be above 0");
    for (const law of [fanPressureAtSpeed, fanPowerAtSpeed]) {
      expect(() => law(-1, 1, 1, 1, 1)).toThrow(/^(pressureInWg|powerHp) must be 0 or more/);
      expect(() => law(1, 0, 1, 1, 1)).toThrow("speedRpm must be above 0");
      expect(() => law(1, 1, 0, 1, 1)).toThrow("newSpeedRpm must be above 0");
      expect(() => law(1, 1, 1, 0, 1)).toThrow("densityLbFt3 must be above 0");
      expect(() => law(1, 1, 1, 1, 0)).toThrow("newDensityLbFt3 must be above 0");
      expect(law(0, 1, 1, 1, 1)).toBe(0);
    }
  });
});

describe("the caution about the motor", () => {
  it("forbids more than the rated power and always asks for the current to be measured", () => {
    const over = fanMotorCaution(7.986, 7.5);
    expect(over).toMatchObject({ exceedsRating: true });
    expect(over.loadPercent).toBeCloseTo(106.48, 9);
    expect(over.caution).toMatch(/^The fan would take more than the motor's rated power: do not run it/);
    const within = fanMotorCaution(7.5, 7.5);
    expect(within).toMatchObject({ exceedsRating: false, loadPercent: 100 });
    expect(within.caution).toMatch(/^The fan would stay within/);
    for (const { caution } of [over, within]) expect(caution).toMatch(/Measure the motor current.*Lock the power out/);
  });

  it("refuses a motor without a rated power", () => {
    expect(() => fanMotorCaution(1, 0)).toThrow("ratedPowerHp must be above 0");
    expect(() => fanMotorCaution(-1, 1)).toThrow("powerHp must be 0 or more");
  });
});
