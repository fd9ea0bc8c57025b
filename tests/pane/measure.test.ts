import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EMPTY_MEASUREMENT, type MeasureDraft } from "../../src/pane/measure/measure-draft.js";
import { type MeasureAction, measureReducer } from "../../src/pane/measure/measure-reducer.js";
import { angleWords, siteWords } from "../../src/pane/measure/site-words.js";
import { sizeMath } from "../../src/pane/measure/size-math.js";
import { understoodMeasurement } from "../../src/pane/measure/understood-measurement.js";
import { measurementWarnings, planNotes } from "../../src/pane/measure/warnings.js";
import { type JobDetails, measuredResult, type TakenMeasurement, UNSTATED_JOB } from "../../src/workbook/index.js";

const SI: JobDetails = { ...UNSTATED_JOB, units: "si" };

const draftOf = (changes: Partial<MeasureDraft>): MeasureDraft => ({ ...EMPTY_MEASUREMENT, ...changes });
const understood = (draft: MeasureDraft, job = UNSTATED_JOB) => understoodMeasurement(draft, job, sizeMath);

function pointsOf(draft: MeasureDraft, job = UNSTATED_JOB) {
  const { plan } = understood(draft, job);
  if (plan === null || "error" in plan) throw new Error(plan?.error ?? "There is no plan.");
  return plan.points;
}

function takenOf(draft: MeasureDraft, job = UNSTATED_JOB): TakenMeasurement {
  const { taken, missing } = understood(draft, job);
  if (taken === null) throw new Error(`Missing: ${missing.join(", ")}.`);
  return taken;
}

function after(draft: MeasureDraft, ...actions: readonly MeasureAction[]): MeasureDraft {
  return actions.reduce(measureReducer, draft);
}

/** Types readings one after another, each taken with Enter. */
function typedIn(draft: MeasureDraft, texts: readonly string[]): MeasureDraft {
  const { keys } = pointsOf(draft);
  return texts.reduce(
    (state, text) =>
      after(state, { type: "typed", text }, { type: "go", keys, place: Math.min(state.place, keys.length - 1) + 1 }),
    draft,
  );
}

const SQUARE = draftOf({
  shape: "rectangular",
  width: "18",
  height: "18",
  rule: "equal area",
  ductLines: "3",
  ductPoints: "3",
});

/** NAVFAC MO-114, vol. 3, ch. 2: an 18 x 18 in duct, 400 fpm, 900 cfm. */
const NAVFAC = ["300", "450", "300", "450", "600", "450", "300", "450", "300"];

describe("a duct from its size to its airflow", () => {
  it("gives 400 fpm and 900 cfm for the published nine-point traverse", () => {
    const result = measuredResult(takenOf(typedIn(SQUARE, NAVFAC)), UNSTATED_JOB);
    expect(result).toMatchObject({ readingCount: 9, meanVelocity: 400 });
    expect(result?.airflow).toBeCloseTo(900, 9);
    // By hand: √((4 · 100² + 4 · 50² + 200²) / 9) = 100 fpm, of 400 fpm.
    expect(result?.spreadPercent).toBeCloseTo(25, 9);
  });

  it("has the usual points of the log rules: 3 diameters of 8 above 10 in, 5 by 5 in a rectangle below 30 in", () => {
    const round = pointsOf(draftOf({ width: "14 1/4" }));
    expect(round).toMatchObject({ rule: "log-linear", lines: 3, pointsPerLine: 8 });
    expect(round.keys.slice(0, 9)).toEqual(["1.1", "1.2", "1.3", "1.4", "1.5", "1.6", "1.7", "1.8", "2.1"]);
    const rectangle = pointsOf(draftOf({ shape: "rectangular", width: "20", height: "12" }));
    expect(rectangle).toMatchObject({ rule: "log-Tchebycheff", lines: 5, pointsPerLine: 5 });
  });

  it("counts depths from outside: the wall comes on top", () => {
    // ISO 5802:2001, Table 3, 6 points: 0.032 of the diameter from the inside wall.
    const points = pointsOf(draftOf({ width: "10", ductLines: "2", ductPoints: "6", wall: "1 in" })).plan.points;
    expect(points[0]?.depthIn).toBeCloseTo(1 + 0.32, 2);
  });

  it("says which number the rule does not know, and keeps what is typed", () => {
    expect(understood(draftOf({ width: "12", ductPoints: "7" })).plan).toEqual({
      error: expect.stringMatching(/^Points on a line: .*even/),
    });
    expect(understood(draftOf({ width: "12", ductLines: "many" })).plan).toEqual({
      error: "Lines: a whole number from 1 to 200.",
    });
    expect(understood(draftOf({ width: "12", ductLines: "2.5" })).missing).toEqual(["the points"]);
  });

  it("is missing its size until that can be read", () => {
    expect(understood(draftOf({})).missing).toEqual(["the size"]);
    expect(understood(draftOf({ width: "14 x 8" })).missing).toEqual(["the size"]);
    expect(understood(draftOf({ shape: "rectangular", width: "14" })).taken).toBeNull();
    expect(understood(draftOf({ width: "14", wall: "thick" })).missing).toEqual(["the wall"]);
  });

  it("measures the same duct alike in both systems of units", () => {
    const inches = takenOf(typedIn(SQUARE, NAVFAC));
    const metric = {
      ...inches,
      units: "si" as const,
      size: { shape: "rectangular" as const, width: 457.2, height: 457.2 },
    };
    const readings = "readings" in inches ? inches.readings.map((fpm) => (fpm ?? 0) * 0.00508) : [];
    const result = measuredResult({ ...metric, readings } as TakenMeasurement, SI);
    // 900 cfm are 424.75 L/s (NIST SP 811, B.8: 1 ft³/min = 0.4719474 L/s).
    expect(result?.airflow).toBeCloseTo(900 * 0.4719474, 3);
  });
});

describe("readings typed one after another", () => {
  const { keys } = pointsOf(SQUARE);

  it("go to the next point with Enter, and the last stays", () => {
    const draft = typedIn(SQUARE, NAVFAC);
    expect(draft.place).toBe(8);
    expect(Object.keys(draft.ductReadings)).toEqual(keys);
  });

  it("show what stands there when one goes back, and what is typed over it counts", () => {
    const back = after(typedIn(SQUARE, NAVFAC.slice(0, 3)), { type: "go", keys, place: 1 });
    expect(back).toMatchObject({ place: 1, typed: "450" });
    const corrected = after(back, { type: "typed", text: "460" }, { type: "go", keys, place: 2 });
    expect(corrected.ductReadings).toMatchObject({ "1.1": "300", "1.2": "460", "1.3": "300" });
    expect(corrected.typed).toBe("300");
  });

  it("tell not taken, a dead spot and a reversed flow apart", () => {
    const taken = takenOf(typedIn(SQUARE, ["400", "", "0", "-50"]));
    expect("readings" in taken ? taken.readings.slice(0, 5) : []).toEqual([400, null, 0, -50, null]);
    expect(measuredResult(taken, UNSTATED_JOB)).toMatchObject({ readingCount: 3, meanVelocity: 350 / 3 });
  });

  it("keep what cannot be read in the field, and never leave the point with it", () => {
    const stuck = after(SQUARE, { type: "typed", text: "4oo" }, { type: "go", keys, place: 1 });
    expect(stuck).toMatchObject({ place: 0, typed: "4oo", ductReadings: {} });
  });

  it("do not turn a point into one that was not taken by passing over it backwards", () => {
    const back = after(typedIn(SQUARE, ["400"]), { type: "go", keys, place: 0 });
    expect(back.ductReadings).toEqual({ "1.1": "400" });
  });

  it("of a duct and of a face are kept apart when one changes what is measured", () => {
    const duct = typedIn(SQUARE, ["400", "410"]);
    const face = after(duct, { type: "set", changes: { kind: "face" } });
    expect(face).toMatchObject({ place: 0, typed: "", faceReadings: {} });
    const again = after(face, { type: "set", changes: { kind: "duct" } });
    expect(again).toMatchObject({ typed: "400", ductReadings: duct.ductReadings });
  });

  it("of a flat oval belong to a duct: a grille is round or rectangular, and its sizes stay", () => {
    const oval = after(SQUARE, { type: "set", changes: { shape: "flat oval", width: "12", height: "24" } });
    expect(takenOf(oval)).toMatchObject({ rule: "equal area", size: { shape: "flat oval", major: 24, minor: 12 } });
    const face = after(oval, { type: "set", changes: { kind: "face" } });
    expect(face).toMatchObject({ kind: "face", shape: "rectangular", width: "12", height: "24" });
  });

  it("come with a word on the place: how straight the duct is, and how the air leans", () => {
    const duct = { shape: "round", diameterIn: 12 } as const;
    expect(siteWords({ upstream: "8", downstream: "" }, duct, "ip")).toBeNull();
    expect(siteWords({ upstream: "8", downstream: "2" }, duct, "ip")).toMatchObject({ isTooNear: false });
    expect(siteWords({ upstream: "1", downstream: "2" }, duct, "ip")).toMatchObject({ isTooNear: true });
    expect(angleWords("")).toEqual({});
    expect(angleWords("12")).toEqual({ words: "Flow suitable: average angle 12.0°, 20° allowed." });
    expect(angleWords("21")).toEqual({ error: expect.stringContaining("Flow swirling") });
    expect(angleWords("x")).toHaveProperty("error");
    expect(angleWords("95")).toHaveProperty("error");
  });

  it("are never lost by a change of the plan, only left out and said so", () => {
    const draft = after(typedIn(SQUARE, NAVFAC), { type: "set", changes: { ductLines: "2" } });
    const taken = takenOf(draft);
    expect("readings" in taken ? taken.readings : []).toHaveLength(6);
    expect(planNotes(pointsOf(draft), draft.ductReadings)).toEqual([
      "3 readings lie outside this plan and do not count; they are kept.",
    ]);
    expect(draft.ductReadings).toEqual(typedIn(SQUARE, NAVFAC).ductReadings);
  });

  it("lose no text through any order of typing, going and turning back", () => {
    const step = fc.oneof(
      fc.integer({ min: -2, max: 12 }).map((place): MeasureAction => ({ type: "go", keys, place })),
      fc.constantFrom("0", "412", "-3").map((text): MeasureAction => ({ type: "typed", text })),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (actions) => {
        let draft = SQUARE;
        const expected = new Map<string, string>();
        for (const action of actions) {
          const key = keys[draft.place] ?? "";
          if (action.type === "go" && draft.typed !== "") expected.set(key, draft.typed);
          draft = measureReducer(draft, action);
          expect(draft.place).toBeGreaterThanOrEqual(0);
          expect(draft.place).toBeLessThan(keys.length);
        }
        for (const [key, text] of expected) expect(draft.ductReadings[key]).toBe(text);
      }),
    );
  });
});

describe("what looks wrong", () => {
  const warningsFor = (texts: readonly string[]) => measurementWarnings(takenOf(typedIn(SQUARE, texts)));

  it("is nothing in the published traverse", () => {
    expect(warningsFor(NAVFAC)).toEqual([]);
  });

  it("is a reversed flow, by its point", () => {
    expect(warningsFor(["400", "410", "-20", "390", "405", "400"])).toEqual([
      expect.stringMatching(/^Point 3: reverse flow/),
    ]);
  });

  it("is a reading with a slipped digit", () => {
    expect(warningsFor(["400", "410", "4100", "390", "405"])).toContainEqual(
      expect.stringMatching(/^Point 3 reads 4100, far from the others/),
    );
  });

  it("is an uneven plane", () => {
    // Training document "Balancing of a Water and Air System", p. 16: 75 % is not more than 75 %.
    expect(warningsFor(["1000", "1000", "1000", "300"])).toContainEqual(
      expect.stringMatching(/^Uneven flow: only 3 of 4/),
    );
  });

  it("is a point that was passed over, but not one that is still to come", () => {
    expect(warningsFor(["400", "", "410"])).toEqual([expect.stringMatching(/^Point 2 was not taken/)]);
    expect(warningsFor(["400", "410"])).toEqual([]);
  });
});

describe("a face", () => {
  const face = draftOf({ kind: "face", shape: "rectangular", width: "14", height: "6" });

  it("with an unknown factor takes 0.75 and flags it", () => {
    const taken = takenOf(typedIn(face, ["400", "400", "400", "400", "400", "400"]));
    const result = measuredResult(taken, UNSTATED_JOB);
    // 14 x 6 in = 0.58333 ft²; 400 · 0.58333 · 0.75 = 175 cfm.
    expect(result?.airflow).toBeCloseTo(175, 9);
    expect(result?.budget.assumed).toContain("Factor");
  });

  it.each([
    [{ factorBasis: "published", factor: "0.6" }, 0.6],
    [{ factorBasis: "effective area", effectiveArea: "0.35" }, 0.6],
    [{ factorBasis: "open" }, 1],
    [{ factorBasis: "unknown" }, null],
  ] as const)("takes its factor from %o", (changes, factor) => {
    const taken = takenOf({ ...face, ...changes });
    expect(taken).toHaveProperty("factor");
    if (!("factor" in taken)) return;
    if (factor === null) expect(taken.factor).toBeNull();
    else expect(taken.factor).toBeCloseTo(factor, 9);
  });

  it.each([
    [{ factorBasis: "published", factor: "" }],
    [{ factorBasis: "published", factor: "78" }],
    [{ factorBasis: "published", factor: "0" }],
    [{ factorBasis: "effective area", effectiveArea: "35" }],
    [{ factorBasis: "effective area", effectiveArea: "0" }],
    [{ factorBasis: "effective area", effectiveArea: "" }],
  ] as const)("has no result with %o", (changes) => {
    expect(understood({ ...face, ...changes }).taken).toBeNull();
    expect(understood({ ...face, ...changes }).missing).toHaveLength(1);
  });

  it("has six points by default, as many as a row of the outlets takes, round or not", () => {
    expect(pointsOf(face).keys).toHaveLength(6);
    expect(pointsOf({ ...face, shape: "round" }).keys).toHaveLength(6);
  });
});

describe("timed sweeps", () => {
  const face = draftOf({ kind: "face", shape: "rectangular", width: "24", height: "12", method: "sweeps" });

  it("are timed by start and stop, to a tenth of a second, and weighted by their time", () => {
    const draft = after(
      face,
      { type: "start sweep", at: 1_000_000 },
      { type: "stop sweep", at: 1_020_040 },
      { type: "set sweep", index: 0, changes: { velocity: "400" } },
      { type: "start sweep", at: 2_000_000 },
      { type: "stop sweep", at: 2_040_000 },
      { type: "set sweep", index: 1, changes: { velocity: "460" } },
    );
    expect(draft.sweeps.map(({ seconds }) => seconds)).toEqual(["20", "40"]);
    // (400 · 20 + 460 · 40) / 60 = 440.
    expect(measuredResult(takenOf(draft), UNSTATED_JOB)?.meanVelocity).toBeCloseTo(440, 9);
  });

  it("wait for both numbers: one without its time or its velocity counts nowhere", () => {
    const draft = {
      ...face,
      sweeps: [
        { velocity: "400", seconds: "" },
        { velocity: "", seconds: "30" },
      ],
    };
    expect(measuredResult(takenOf(draft), UNSTATED_JOB)).toBeNull();
  });

  it("say whether they agree: 5 % or less of their mean", () => {
    const of = (...velocities: readonly string[]) =>
      measurementWarnings(takenOf({ ...face, sweeps: velocities.map((velocity) => ({ velocity, seconds: "30" })) }));
    expect(of("400")).toEqual([expect.stringContaining("Sweep again")]);
    expect(of("390", "410")).toEqual([]);
    expect(of("389", "411")).toEqual([expect.stringContaining("differ by 5.5 %")]);
    expect(of("0", "0")).toEqual([expect.stringContaining("do not agree")]);
  });

  it("bring their own scatter into the ±", () => {
    const sweeps = ["400", "410", "390"].map((velocity) => ({ velocity, seconds: "30" }));
    const budget = measuredResult(takenOf({ ...face, sweeps }), UNSTATED_JOB)?.budget;
    // s = 10, n = 3: 10 / √3 / 400 = 1.4434 % (JCGM 100:2008, 4.2).
    expect(budget?.rows.find(({ name }) => name === "Repeat")?.contributionPercent).toBeCloseTo(1.4434, 4);
    expect(budget?.assumed).not.toContain("Repeat");
  });

  it("are removed one by one, and everything only on demand", () => {
    const two = {
      ...face,
      sweeps: [
        { velocity: "1", seconds: "2" },
        { velocity: "3", seconds: "4" },
      ],
    };
    expect(after(two, { type: "remove sweep", index: 0 }).sweeps).toEqual([{ velocity: "3", seconds: "4" }]);
    expect(after(two, { type: "start over" })).toMatchObject({ kind: "face", width: "", sweeps: [] });
  });
});
