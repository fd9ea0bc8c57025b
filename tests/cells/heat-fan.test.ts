import { describe, expect, it } from "vitest";
import { callCell, expectCellError } from "./call-cell.js";

describe("HEAT", () => {
  it("carries 1.08 Btu/h for each cfm and degree of standard air", () => {
    expect(callCell("HEAT.SENSIBLE", 1000, 20, null)).toBeCloseTo(21600, 6);
    expect(callCell("HEAT.SENSIBLE", [[1000], [0], [500]], -20)).toEqual([
      [expect.closeTo(-21600, 6)],
      [""],
      [expect.closeTo(-10800, 6)],
    ]);
  });

  it("agrees with the published metric equations", () => {
    // Duct-design manual, Table 14-27 (read): 1.23 with moisture, 1.20 and 3.0 W for each L/s
    const sensible = callCell("HEAT.SENSIBLE", 100, 10, null, "si") as number;
    expect(Math.abs(sensible / 1230 - 1)).toBeLessThan(0.02);
    const total = callCell("HEAT.TOTAL", 100, 10, null, "si") as number;
    expect(Math.abs(total / 1200 - 1)).toBeLessThan(0.005);
    const latent = callCell("HEAT.LATENT", 100, 0.002, null, "si") as number;
    expect(Math.abs(latent / 600 - 1)).toBeLessThan(0.05 / 3);
    expect(callCell("HEAT.FACTOR", null, "si")).toBeCloseTo(sensible / 1000, 12);
    expect(callCell("HEAT.FACTOR")).toBeCloseTo(1.08, 12);
  });

  it("gives in SI the heat of the same air in inch-pound", () => {
    const ip = callCell("HEAT.TOTAL", 1000, 8, 0.07) as number;
    const si = callCell("HEAT.TOTAL", 471.9474432, 8 * 2.326, 0.07 * 16.01846337396, "si") as number;
    expect(si / 0.29307107017).toBeCloseTo(ip, 4);
  });

  it("asks for the difference and refuses a density below 0", () => {
    expectCellError(callCell("HEAT.SENSIBLE", 1000, 0), "#N/A", "difference is missing");
    expectCellError(callCell("HEAT.TOTAL", 1000, 8, -1), "#VALUE!", "density must be above 0.");
    expectCellError(callCell("HEAT.LATENT", "much", 0.002), "#VALUE!", "airflow holds the text");
  });
});

describe("HEAT.RISE", () => {
  it("finds a furnace's airflow in both unit systems", () => {
    const ip = callCell("HEAT.RISE", 64800, 70, 120) as number;
    expect(ip).toBeCloseTo(1200, 9);
    const si = callCell("HEAT.RISE", 64800 * 0.29307107017, (70 - 32) / 1.8, (120 - 32) / 1.8, null, "si") as number;
    expect(si / 0.4719474432).toBeCloseTo(ip, 6);
  });

  it("never takes a blank thermometer cell for 0 degrees", () => {
    expectCellError(callCell("HEAT.RISE", 64800, 0, 120), "#N/A", "entering is blank or 0");
    expectCellError(callCell("HEAT.RISE", 64800, 70, 0), "#N/A", "leaving is blank or 0");
    expect(callCell("HEAT.RISE", 64800, 0, 0)).toBe("");
    expect(callCell("HEAT.RISE", 64800, 0.01, 50.01)).toBeCloseTo(1200, 9);
  });

  it("asks for the output and refuses air that is not warmed", () => {
    expectCellError(callCell("HEAT.RISE", 0, 70, 120), "#N/A", "output is missing");
    expectCellError(callCell("HEAT.RISE", 64800, 70, 60), "#VALUE!", "leaving must be above the entering temperature.");
  });
});

describe("HEAT.OUTSIDE", () => {
  it("finds the share of outside air, whatever the unit and however many rows", () => {
    expect(callCell("HEAT.OUTSIDE", 75, 35, 67)).toBeCloseTo(0.2, 12);
    const celsius = [75, 35, 67].map((fahrenheit) => (fahrenheit - 32) / 1.8);
    expect(callCell("HEAT.OUTSIDE", ...celsius)).toBeCloseTo(0.2, 12);
    expect(callCell("HEAT.OUTSIDE", [[75], [75]], [[35], [95]], [[67], [80]])).toEqual([
      [expect.closeTo(0.2, 12)],
      [expect.closeTo(0.25, 12)],
    ]);
  });

  it("stays quiet while nothing is read, and asks for what is missing", () => {
    expect(callCell("HEAT.OUTSIDE", 0, 0, 0)).toBe("");
    expectCellError(callCell("HEAT.OUTSIDE", 75, 35, 0), "#N/A", "mixedAir is blank or 0");
    expectCellError(callCell("HEAT.OUTSIDE", 75, 0, 67), "#N/A", "outsideAir is blank or 0");
  });

  it("refuses temperatures that tell nothing", () => {
    expectCellError(callCell("HEAT.OUTSIDE", 75, 75, 75), "#VALUE!", "differ by 0 degrees only");
    expectCellError(callCell("HEAT.OUTSIDE", 70, 69, 69.5), "#VALUE!", "differ by 1 degrees only");
    expectCellError(callCell("HEAT.OUTSIDE", 75, 35, 80), "#VALUE!", "mixedAir must be from the outside to the return");
    expectCellError(callCell("HEAT.OUTSIDE", "warm", 35, 67), "#VALUE!", "returnAir holds the text");
  });
});

describe("FAN", () => {
  it("follows the laws over a column of speeds", () => {
    expect(callCell("FAN.AIRFLOW", 6000, 2000, [[1500], [2000]])).toEqual([[4500], [6000]]);
    expect(callCell("FAN.PRESSURE", 4, 2000, 1500)).toBe(2.25);
    expect(callCell("FAN.POWER", 6, 2000, 1500)).toBe(2.53125);
    expect(callCell("FAN.SPEED", 2000, 6000, 4500)).toBe(1500);
    expect(callCell("FAN.POWER", 6, 2000, 1500, null, null)).toBe(2.53125);
    expect(callCell("FAN.PRESSURE", 340, 1200, 1200, 1.2, 0.6)).toBe(170);
  });

  it("wants both densities or none", () => {
    expectCellError(callCell("FAN.PRESSURE", 4, 2000, 1500, 0.075), "#N/A", "newDensity is missing");
    expectCellError(callCell("FAN.POWER", 4, 2000, 1500, 0, 0.07), "#N/A", "density is missing");
  });

  it("stays empty in an empty row and asks for what is missing", () => {
    expect(callCell("FAN.AIRFLOW", [[0]], [[0]], [[0]])).toBe("");
    expect(callCell("FAN.PRESSURE", 0, 0, 0)).toBe("");
    expectCellError(callCell("FAN.AIRFLOW", 6000, 0, 1500), "#N/A", "speed is missing");
    expectCellError(callCell("FAN.SPEED", 2000, 6000, 0), "#N/A", "wanted is missing");
    expectCellError(callCell("FAN.AIRFLOW", 6000, -1, 1500), "#VALUE!", "speed must be above 0.");
    expectCellError(callCell("FAN.POWER", 6, 2000, -1), "#VALUE!", "newSpeed must be above 0.");
  });

  it("warns in words about the motor", () => {
    expect(callCell("FAN.MOTOR", 7.986, 7.5)).toMatch(
      /^106 % of rated power\. The fan would take more .*do not run it/,
    );
    expect(callCell("FAN.MOTOR", [[6], [0]], [[7.5], [0]])).toEqual([[expect.stringContaining("stay within")], [""]]);
    expectCellError(callCell("FAN.MOTOR", 6, 0), "#N/A", "ratedPower is missing");
    expectCellError(callCell("FAN.MOTOR", 6, -1), "#VALUE!", "ratedPower must be above 0.");
  });
});
