import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { setDecimalSign, withPoints } from "../../src/pane/controls/decimal-sign.js";
import { readTypedNumber } from "../../src/pane/controls/read-typed-number.js";
import { restoredDraft } from "../../src/pane/drafts/restored-draft.js";
import { jobDensity } from "../../src/pane/shell/job-density.js";
import { failureMessage } from "../../src/pane/shell/message.js";
import { tabAfterKey } from "../../src/pane/shell/tab-after-key.js";
import { AIR_FIELDS, fieldText, JOB_FIELDS, readField } from "../../src/pane/start/job-fields.js";
import { EMPTY_START, startReducer } from "../../src/pane/start/start-draft.js";
import { HostError, UNSTATED_JOB } from "../../src/workbook/index.js";

describe("the tabs", () => {
  const ids = ["start", "measure", "check"];

  it.each([
    ["start", "ArrowRight", "measure"],
    ["check", "ArrowRight", "start"],
    ["start", "ArrowLeft", "check"],
    ["check", "Home", "start"],
    ["start", "End", "check"],
  ])("lead from %s by %s to %s", (current, key, next) => {
    expect(tabAfterKey(ids, current, key)).toBe(next);
  });

  it("leave every other key alone", () => {
    for (const key of ["Enter", "a", "ArrowDown", "toString"]) expect(tabAfterKey(ids, "start", key)).toBeNull();
  });
});

describe("what is typed", () => {
  it("starts anew where an older pane left something else", () => {
    const initial = { width: "", readings: [] as readonly string[] };
    expect(restoredDraft({ width: 12, readings: ["400"], gone: 1 }, initial)).toEqual({ width: "", readings: ["400"] });
    expect(restoredDraft({ readings: { 0: "400" } }, initial)).toEqual(initial);
    for (const kept of [undefined, null, "text", 7]) expect(restoredDraft(kept, initial)).toEqual(initial);
  });
});

describe("a typed number", () => {
  it.each([
    ["12", 12],
    [" -3.5 ", -3.5],
    ["−3", -3],
    [".5", 0.5],
    ["", null],
  ])("reads %j as %j", (text, value) => {
    expect(readTypedNumber(text, null, null)).toEqual({ value });
  });

  it.each(["twelve", "1e3", "12 in", "1,250", "--3", "0x10", "Infinity"])("refuses %j with a sentence", (text) => {
    expect(readTypedNumber(text, null, null)).toEqual({ error: expect.stringMatching(/\.$/) });
  });

  it("keeps both bounds and names them", () => {
    expect(readTypedNumber("100", 0, 100)).toEqual({ value: 100 });
    expect(readTypedNumber("100.1", 0, 100)).toEqual({ error: "Enter a number from 0 to 100." });
  });
});

describe("a number typed in a workbook with a decimal comma", () => {
  beforeEach(() => setDecimalSign(","));
  afterEach(() => setDecimalSign("."));

  it.each([
    ["12,5", 12.5],
    ["-0,25", -0.25],
    ["1250", 1250],
    ["12.5", 12.5],
  ])("reads %j as %j", (text, value) => {
    expect(readTypedNumber(text, null, null)).toEqual({ value });
  });

  it.each(["1.250", "1.250,5", "1,250,5"])("refuses the mark for thousands in %j", (text) => {
    expect(readTypedNumber(text, null, null)).toEqual({
      error: "Write decimals with a comma and thousands without a mark: 1250,5.",
    });
  });

  it("is read alike in a size", () => {
    expect(withPoints("12,5 - 2*0,5")).toBe("12.5 - 2*0.5");
    setDecimalSign(".");
    expect(withPoints("12,5")).toBe("12,5");
  });
});

describe("the details of the job", () => {
  const date = JOB_FIELDS.find(({ detail }) => detail === "dateSerial");
  const elevation = AIR_FIELDS.find(({ detail }) => detail === "elevation");
  if (date === undefined || elevation === undefined) throw new Error("The pane does not ask for date and elevation.");

  it("keep a date as the number that a sheet keeps", () => {
    // 1 January 2026 is day 46023 of the 1900 system, as any spreadsheet shows it.
    expect(readField(date, "2026-01-01")).toEqual({ value: 46023 });
    expect(fieldText(date, { ...UNSTATED_JOB, dateSerial: 46023.75 })).toBe("2026-01-01");
    expect(fieldText(date, { ...UNSTATED_JOB, dateSerial: Number.NaN })).toBe("");
  });

  it("keep what is typed until it is stated", () => {
    const typed = startReducer(EMPTY_START, { type: "typed", detail: "elevation", text: "5,280" });
    expect(typed.texts).toEqual({ elevation: "5,280" });
    expect(readField(elevation, "5,280")).toHaveProperty("error");
    expect(startReducer(typed, { type: "stated", detail: "elevation" })).toEqual(EMPTY_START);
  });

  it("give the density of the air only where its temperature is stated", () => {
    expect(jobDensity({ ...UNSTATED_JOB, elevation: 5000 })).toBeNull();
    // Dry air at 70 °F and sea level: 0.0749 lb/ft³ by the gas law with R = 53.352.
    expect(jobDensity({ ...UNSTATED_JOB, temperature: 70 })).toBeCloseTo(0.0749, 4);
    expect(jobDensity({ ...UNSTATED_JOB, units: "si", temperature: 21.1111 })).toBeCloseTo(0.0749, 4);
    expect(jobDensity({ ...UNSTATED_JOB, temperature: 1e9 })).toBeNull();
    // The barometer comes before the elevation: 0.0749 lb/ft³ at 29.921 inHg, in proportion to the pressure.
    const high = { ...UNSTATED_JOB, temperature: 70, elevation: 5280 };
    expect(jobDensity({ ...high, barometer: 24.636 })).toBeCloseTo(0.06166, 5);
    expect(jobDensity({ ...high, units: "si", temperature: 20, barometer: 101.325 })).toBeCloseTo(
      1.20415 / 16.018463,
      5,
    );
    expect(jobDensity({ ...high, barometer: 101.3 })).toBeNull();
  });
});

describe("a failure", () => {
  it("of the host is said in the host's words, and any other as ours", () => {
    expect(failureMessage(new HostError("The sheet is locked."))).toEqual({
      kind: "failed",
      text: "The sheet is locked.",
    });
    expect(failureMessage(new TypeError("x is undefined")).text).toContain("What you typed is kept.");
  });
});
