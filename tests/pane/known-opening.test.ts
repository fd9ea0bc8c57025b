import { describe, expect, it } from "vitest";
import type { UnitSystemName } from "../../src/core/index.js";
import { openingChanges, openingWords } from "../../src/pane/measure/known-opening-words.js";
import { EMPTY_MEASUREMENT, type MeasureDraft } from "../../src/pane/measure/measure-draft.js";
import { measureReducer } from "../../src/pane/measure/measure-reducer.js";
import { sizeMath } from "../../src/pane/measure/size-math.js";
import { understoodMeasurement } from "../../src/pane/measure/understood-measurement.js";
import { type KnownOpening, UNSTATED_JOB } from "../../src/workbook/index.js";

const S2: KnownOpening = {
  sheet: "Outlets",
  row: 12,
  name: "S2",
  units: "ip",
  shape: "rectangular",
  width: 14,
  height: 6,
  factor: null,
  effectiveArea: null,
  factorIs: "assumed",
  findings: [],
};

const ROUND: Partial<KnownOpening> = { shape: "round", width: 200, height: null, units: "si" };
const NO_SIZE: Partial<KnownOpening> = { shape: null, width: null, height: null };
const ISSUE = "Outlets!G12 shows #REF! where a number belongs. Mend it in the sheet.";

describe("the line about the selected row", () => {
  it.each([
    [{}, "Row 12, S2: 14 × 6 in, factor 0.75 (assumed)."],
    [{ factor: 0.8, factorIs: "given" }, "Row 12, S2: 14 × 6 in, factor 0.8."],
    [{ ...ROUND, factorIs: null, name: "" }, "Row 12: 200 mm round."],
    [{ width: null }, "Row 12, S2: height 6 in, no width, factor 0.75 (assumed)."],
    [{ ...NO_SIZE, factor: 0.8, factorIs: "given" }, "Row 12, S2: factor 0.8."],
    [{ ...NO_SIZE, effectiveArea: 0.4375, factorIs: null }, "Row 12, S2: effective area 0.4375 ft²."],
    [{ ...NO_SIZE, factorIs: null, findings: [ISSUE] }, `Row 12, S2: ${ISSUE}`],
    [
      { factor: 0.25 },
      "Row 12, S2: 14 × 6 in, factor 0.25 (assumed). Factor not copied; 0.75 is used unless you enter one.",
    ],
  ] as const)("of %j", (changes, line) => {
    expect(openingWords({ ...S2, ...changes }, "ip")).toBe(line);
  });
});

describe("what is taken from the selected row", () => {
  const typed: MeasureDraft = {
    ...EMPTY_MEASUREMENT,
    shape: "rectangular",
    width: "24",
    height: "12",
    factorBasis: "published",
    factor: "0.9",
    faceReadings: { "1.1": "400" },
  };
  const takenFrom = (changes: Partial<KnownOpening>, units: UnitSystemName = "ip") =>
    measureReducer(typed, { type: "set", changes: openingChanges({ ...S2, ...changes }, units, null) });

  it("is shape, size and factor, at a face, and every reading stays", () => {
    expect(takenFrom({})).toEqual({
      ...typed,
      kind: "face",
      width: "14",
      height: "6",
      factorBasis: "unknown",
      typed: "400",
    });
    expect(takenFrom({ factor: 0.8, factorIs: "given" })).toMatchObject({ factorBasis: "published", factor: "0.8" });
    expect(takenFrom({ effectiveArea: 0.4375, factorIs: null })).toMatchObject({
      ...{ kind: "face", factorBasis: "effective area", effectiveArea: "0.4375" },
    });
    expect(takenFrom({ factor: 1, factorIs: "given" })).toMatchObject({ kind: "duct", factorBasis: "open" });
  });

  it("leaves what the row does not say as it was typed", () => {
    expect(takenFrom({ ...NO_SIZE, factorIs: null })).toEqual(typed);
    expect(takenFrom({ width: null, factorIs: null })).toEqual({ ...typed, height: "6" });
    expect(takenFrom({ ...ROUND, units: "ip", factorIs: null })).toEqual({ ...typed, shape: "round", width: "200" });
    expect(takenFrom({ factor: 0.25 })).toMatchObject({ factorBasis: "published", factor: "0.9" });
  });

  it("is measured at a face where the outlet has louvers, though the row says nothing of its factor", () => {
    const changes = openingChanges({ ...S2, factorIs: null }, "ip", "face");
    expect(changes).toEqual({ shape: "rectangular", width: "14", height: "6", kind: "face" });
  });

  it("carries its unit where the job is in the other, and is understood there", () => {
    const draft = takenFrom({ ...ROUND, width: 254 });
    expect(draft.width).toBe("254 mm");
    expect(understoodMeasurement(draft, UNSTATED_JOB, sizeMath).sizes.size).toEqual({ shape: "round", diameter: 10 });
    expect(takenFrom({ ...ROUND, width: 254 }, "si").width).toBe("254");
  });
});
