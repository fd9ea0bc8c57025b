import { describe, expect, it } from "vitest";
import { callCell, expectCellError } from "./call-cell.js";

const FACE = [
  [400, 420],
  [380, 400],
];

function rows(result: unknown): readonly (readonly unknown[])[] {
  if (!Array.isArray(result)) throw new Error(`no rows: ${String(result)}`);
  return result;
}

describe("WORKINGS.FACE", () => {
  it("spills a row for each step, from the size to the ±", () => {
    const steps = rows(callCell("WORKINGS.FACE", 12, 6, FACE, 0.75, null, 160));
    expect(
      steps.slice(0, 5).map(([title, formula, numbers, result, unit]) => [title, formula, numbers, result, unit]),
    ).toEqual([
      ["Opening area", "A = w * h", "w = 12 in, h = 6 in", 0.5, "ft2"],
      ["Free area", "Af = A * F", "A = 0.5 ft2, F = 0.75", 0.375, "ft2"],
      ["Average velocity", "V = mean(v)", "v = [400; 420; 380; 400] fpm", 400, "fpm"],
      ["Airflow", "Q = V * Af", "V = 400 fpm, Af = 0.375 ft2", 150, "cfm"],
      ["Percent of design", "P = 100 * Q / Qd", "Q = 150 cfm, Qd = 160 cfm", 93.75, "%"],
    ]);
    expect(steps).toHaveLength(7);
    for (const step of steps) expect(step).toHaveLength(7);
  });

  it("gives the airflow that AIRFLOW.FACE gives, and the ± that SHEET.OUTLETS gives", () => {
    const steps = rows(callCell("WORKINGS.FACE", 14, 8, FACE));
    const airflow = steps.find(([title]) => title === "Airflow")?.[3];
    expect(airflow).toBe(callCell("AIRFLOW.FACE", 14, 8, FACE));
    const sheet = rows(callCell("SHEET.OUTLETS", [[14, 8]], [[0]], [[0]], [FACE.flat()]));
    expect(steps.at(-1)?.[3]).toBeCloseTo(sheet[0]?.[4] as number, 9);
  });

  it("says in its last column what was assumed", () => {
    const assumed = (result: unknown) => rows(result).map((row) => row[6]);
    expect(assumed(callCell("WORKINGS.FACE", 12, 6, FACE))[1]).toMatch(
      /^Assumed: Factor 0\.75, because none is published/,
    );
    expect(assumed(callCell("WORKINGS.FACE", 12, 6, FACE, 0.75))[1]).toBe("");
  });

  it("takes a published effective area in place of the factor, and refuses both", () => {
    const steps = rows(callCell("WORKINGS.FACE", 12, 6, FACE, null, null, null, 0.36));
    expect(steps.map((step) => step[1])).toContain("F = Ae / A");
    expect(steps.find(([title]) => title === "Airflow")?.[3]).toBeCloseTo(144, 9);
    expectCellError(
      callCell("WORKINGS.FACE", 12, 6, FACE, 0.75, null, null, 0.36),
      "#VALUE!",
      "factor must be left out",
    );
  });

  it("shows every number in SI where asked", () => {
    const steps = rows(callCell("WORKINGS.FACE", 300, 150, [[2]], 0.75, null, null, null, "si"));
    expect(steps.map((step) => step[4])).toEqual(["m2", "m2", "m/s", "L/s", "%", "L/s"]);
    expect(steps[0]?.[2]).toBe("w = 300 mm, h = 150 mm");
    expect(steps[3]?.[3]).toBeCloseTo(0.045 * 0.75 * 2 * 1000, 9);
  });

  it("stays empty until a reading is there, and then asks for the size", () => {
    expect(callCell("WORKINGS.FACE", 12, 6, [[0, 0]])).toBe("");
    expectCellError(callCell("WORKINGS.FACE", 0, 6, FACE), "#N/A", "width is missing");
    expectCellError(callCell("WORKINGS.FACE", 12, 6, [[400, 0]]), "#VALUE!", "COUNT");
    expectCellError(callCell("WORKINGS.FACE", 12, 6, [[400, "blocked"]]), "#VALUE!", "row 1, column 2");
    expectCellError(callCell("WORKINGS.FACE", 12, 6, FACE, 1.2), "#VALUE!", "factor must be");
  });

  it("takes an open round face without a factor's doubt", () => {
    const steps = rows(callCell("WORKINGS.FACE", 12, 0, FACE, 1));
    expect(steps[0]?.[1]).toBe("A = pi * d^2 / 4");
    expect(steps.at(-2)?.[1]).toBe("U = k * sqrt(uInstrument^2 + uArea^2 + uRepeat^2 + uPoints^2)");
  });
});

describe("WORKINGS.DUCT", () => {
  it("works a traverse of velocities", () => {
    const steps = rows(
      callCell("WORKINGS.DUCT", 18, 18, [[300, 450, 300, 450, 600, 450, 300, 450, 300]], null, null, null, 1000),
    );
    // NAVFAC MO-114 vol. 3, ch. 2, question 2-2: mean 400 fpm, 2.25 ft2, 900 cfm
    expect(steps.map((step) => step[3]).slice(0, 4)).toEqual([2.25, 400, 900, 90]);
  });

  it("works a traverse of pressures, and says when the density was assumed", () => {
    const assumed = rows(callCell("WORKINGS.DUCT", 24, 24, [[0.5]], null, "Pressure"));
    expect(assumed[1]?.[1]).toBe("V = mean(map(p, sqrt)) * sqrt(2 / rho)");
    expect(assumed[1]?.[6]).toBe("Assumed: Density of standard air, because none is stated");
    const stated = rows(callCell("WORKINGS.DUCT", 24, 24, [[0.5]], null, "pressure", 0.06));
    expect(stated[1]?.[6]).toBe("");
    expect(stated[1]?.[3]).toBeGreaterThan(assumed[1]?.[3] as number);
  });

  it("gives in SI what it gives in inch-pound", () => {
    const si = rows(callCell("WORKINGS.DUCT", 609.6, 609.6, [[124.544455]], null, "pressure", null, null, "si"));
    const ip = rows(callCell("WORKINGS.DUCT", 24, 24, [[0.5]], null, "pressure"));
    expect(si[1]?.[2]).toBe("p = [124.544] Pa, rho = 1.20138 kg/m3");
    expect((si[2]?.[3] as number) / 0.4719474432).toBeCloseTo(ip[2]?.[3] as number, 6);
  });

  it("refuses a quantity that it does not know, and stays empty without readings", () => {
    expectCellError(callCell("WORKINGS.DUCT", 24, 24, [[0.5]], null, "flow"), "#VALUE!", 'quantity must be "velocity"');
    expect(callCell("WORKINGS.DUCT", 24, 24, [[0]], 0)).toBe("");
    expectCellError(
      callCell("WORKINGS.DUCT", 24, 24, [[0.5]], null, "pressure", -1),
      "#VALUE!",
      "density must be above 0.",
    );
  });
});
