import { describe, expect, it } from "vitest";
import * as core from "../../../src/core/index.js";

const HUGE = Number.MAX_VALUE;
const TINY = Number.MIN_VALUE;

/** Calls whose arguments are all allowed while the result is too large to hold. */
const OVERFLOWING: readonly (readonly [string, () => unknown])[] = [
  ["airChanges", () => core.airChanges(HUGE, 1)],
  ["airflowForAirChanges", () => core.airflowForAirChanges(HUGE, HUGE)],
  ["airflowForLoad", () => core.airflowForLoad(HUGE, TINY, 0.075)],
  ["airflowForTons", () => core.airflowForTons(HUGE, 400)],
  ["airflowFromTemperatureRise", () => core.airflowFromTemperatureRise(HUGE, 0, 0.01, 0.075)],
  ["fanAirflowAtSpeed", () => core.fanAirflowAtSpeed(HUGE, 1, 2)],
  ["fanMotorCaution", () => core.fanMotorCaution(HUGE, 1)],
  ["fanPowerAtSpeed", () => core.fanPowerAtSpeed(HUGE, 1, 2, 0.075, 0.075)],
  ["fanPressureAtSpeed", () => core.fanPressureAtSpeed(HUGE, 1, 2, 0.075, 0.075)],
  ["fanSpeedForAirflow", () => core.fanSpeedForAirflow(HUGE, 1, 2)],
  ["latentHeat", () => core.latentHeat(HUGE, 1, 0.075)],
  ["leakageAirflow", () => core.leakageAirflow(HUGE, [-HUGE])],
  ["leakagePercent", () => core.leakagePercent(HUGE, [1])],
  ["sensibleHeat", () => core.sensibleHeat(HUGE, 20, 0.075)],
  ["totalHeat", () => core.totalHeat(HUGE, 20, 0.075)],
  ["transferAirflow", () => core.transferAirflow(0, HUGE, HUGE)],
];

describe("a result that is too large to hold", () => {
  it.each(OVERFLOWING)("is refused by %s under its own name, never shown as an infinity", (name, call) => {
    expect(call).toThrow(`${name} must be small enough to calculate with`);
  });
});
