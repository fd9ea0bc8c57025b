import { describe, expect, it } from "vitest";
import * as core from "../../src/core/index.js";
import { coreFunctions } from "./core-functions.js";
import { disagreement, readPrinted } from "./printed-value.js";

/**
 * The unit in square brackets and how a name with that unit ends. A new unit gets a line here and a flavour in
 * src/core/units/quantity.ts. An empty ending: a value in that unit is named for what it is.
 */
const endings: Readonly<Record<string, readonly string[]>> = {
  in: ["In"],
  ft: ["Ft"],
  in2: ["In2"],
  ft2: ["Ft2"],
  ft3: ["Ft3"],
  fpm: ["Fpm"],
  cfm: ["Cfm"],
  "cfm or L/s": ["Flow"],
  inWG: ["InWg"],
  inHg: ["InHg"],
  psi: ["Psi"],
  "lb/ft3": ["LbFt3"],
  "lb/lb": ["Ratio"],
  deg: ["Degrees"],
  degF: ["F"],
  "degF difference": ["F"],
  "Btu/h": ["BtuPerHour"],
  "Btu/lb": ["BtuPerLb"],
  "Btu/(h cfm degF)": ["BtuPerHourCfmF"],
  "cfm/ton": ["CfmPerTon"],
  ton: ["Tons"],
  hp: ["Hp"],
  rpm: ["Rpm"],
  s: ["Seconds"],
  "1/h": ["PerHour"],
  mm: ["Mm"],
  m: ["M"],
  m2: ["M2"],
  m3: ["M3"],
  "m/s": ["Mps"],
  "L/s": ["Lps"],
  Pa: ["Pa"],
  "kg/m3": ["KgM3"],
  degC: ["C"],
  "degC difference": ["C"],
  "kJ/kg": ["KjPerKg"],
  W: ["W"],
  kW: ["Kw"],
  ratio: ["Ratio", "Ratios"],
  "%": ["Percent", "Percents"],
  count: ["Count"],
  factor: ["", "Factor"],
  "same unit": [""],
};

const unitAtEnd = /\[([^\]]+)\]\.?$/;

const functions = coreFunctions();

describe("every public function of the core", () => {
  it("is found by the scan", () => {
    const exported = Object.entries(core)
      .filter(([, value]) => typeof value === "function" && !/^class\b/.test(Function.prototype.toString.call(value)))
      .map(([name]) => name);
    expect(functions.map((one) => one.name).sort()).toEqual(exported.sort());
  });

  describe.each(functions)("$name", (one) => {
    it("says in one sentence what it returns", () => {
      const sentence = one.description.split("\n\n")[0]?.replaceAll("\n", " ") ?? "";
      expect(sentence).toMatch(/^[A-Z].*\.$/);
      expect(sentence.slice(0, -1), "one sentence, the rest goes into its own paragraph").not.toMatch(/[.!?] [A-Z]/);
    });

    it("explains each parameter, with a unit that its name ends in", () => {
      for (const { name, comment } of one.parameters) {
        expect(comment, `@param ${name}`).toMatch(/^- \S/);
        const unit = comment?.match(unitAtEnd)?.[1];
        if (unit === undefined) continue;
        const allowed = endings[unit];
        expect(allowed, `[${unit}] of ${name} is not in the list of units of this test`).toBeDefined();
        expect(
          allowed?.some((ending) => name.endsWith(ending)),
          `${name} [${unit}] should end in ${allowed?.join(" or ")}`,
        ).toBe(true);
      }
    });

    it("gives a unit to each parameter whose name ends in one", () => {
      const known = new Set(Object.values(endings).flat().filter(Boolean));
      for (const { name, comment } of one.parameters) {
        const last = name.match(/[A-Z][a-z]*\d?$/)?.[0];
        const hasEnding =
          [...known].some((ending) => ending.length > 1 && name.endsWith(ending)) || known.has(last ?? "");
        if (hasEnding) expect(comment, `${name} lacks its [unit]`).toMatch(unitAtEnd);
      }
    });

    it("says what it returns, with the unit where that is a number", () => {
      expect(one.returns).toBeTruthy();
      if (one.returnsNumbers) expect(one.returns).toMatch(unitAtEnd);
      const unit = one.returns?.match(unitAtEnd)?.[1];
      if (unit !== undefined) expect(Object.keys(endings)).toContain(unit);
    });

    it("names its source", () => {
      expect(one.sources.length).toBeGreaterThan(0);
      for (const source of one.sources) expect(source.length).toBeGreaterThan(10);
    });

    it("has an example that gives what is printed", () => {
      const printed = one.examples.flatMap(examplesIn);
      expect(printed.length, "@example call // => value").toBeGreaterThan(0);
      for (const example of printed) {
        expect(example.code, "the example calls the function").toContain(`${one.name}(`);
        expect(disagreement(run(example.code), readPrinted(example.value)), example.code).toBeUndefined();
      }
    });
  });
});

describe("the comparison with a printed value", () => {
  it("allows half a unit of the last printed digit and no more", () => {
    expect(disagreement(2.2345, readPrinted("2.234"))).toBeUndefined();
    expect(disagreement(2.2346, readPrinted("2.234"))).toContain("printed 2.234");
    expect(disagreement(1049, readPrinted("1.0e3"))).toBeUndefined();
    expect(disagreement(-0.06, readPrinted("-0.1"))).toBeUndefined();
  });

  it("looks into lists and records", () => {
    expect(disagreement([1, "low"], readPrinted('[1, "low"]'))).toBeUndefined();
    expect(disagreement([1], readPrinted("[1, 2]"))).toContain("a list of 2");
    expect(disagreement({ flow: 2 }, readPrinted("{ flow: 1 }"))).toContain("value.flow is 2");
    expect(disagreement(Number.NaN, readPrinted("1"))).toContain("NaN");
  });
});

/** Splits an example into calls: everything up to a line with an arrow is one of them. */
function examplesIn(example: string): readonly { readonly code: string; readonly value: string }[] {
  const found: { code: string; value: string }[] = [];
  let code = "";
  for (const line of example.split("\n")) {
    const [before = "", value] = line.split("// =>");
    code += `${before}\n`;
    if (value !== undefined) {
      found.push({ code: code.trim(), value: value.trim() });
      code = "";
    }
  }
  return found;
}

function run(code: string): unknown {
  const names = Object.keys(core);
  return new Function(...names, `return (${code});`)(...Object.values(core)) as unknown;
}
