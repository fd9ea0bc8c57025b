import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { FUNCTION_GROUPS } from "../../src/engine/functions/index.js";
import { calculateXlsx } from "../../src/engine/index.js";
import { corpusWorkbook } from "../../src/tools/formulas/corpus-workbook.js";
import { corpusResults } from "../../src/tools/formulas/judge.js";
import {
  isSameResult,
  type Judged,
  readCorpus,
  readJudged,
  readRules,
  wantedResult,
} from "../../src/tools/formulas/read-corpus.js";
import { recalculatedByGnumeric, recalculatedByLibreOffice } from "../../src/tools/formulas/recalculate.js";
import { openWorkbook, patchWorkbook } from "../../src/xlsx/index.js";

const cases = readCorpus();
const judged = readJudged();

function calculated(formulas: readonly string[]): readonly string[] {
  const workbook = openWorkbook(corpusWorkbook(formulas), "corpus.xlsx");
  const { edits } = calculateXlsx(workbook);
  return corpusResults(openWorkbook(patchWorkbook(workbook, edits), "corpus.xlsx"), formulas.length);
}

describe("the corpus of formulas", () => {
  const results = calculated(cases.map(({ formula }) => formula));

  it("is judged whole, and covers at least 250 functions", () => {
    expect(cases.filter(({ formula }) => !judged.has(formula)).map(({ formula }) => formula)).toEqual([]);
    const called = new Set(cases.flatMap(({ formula }) => formula.match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? []));
    expect(called.size).toBeGreaterThan(250);
    expect(cases.length).toBeGreaterThan(1_600);
  });

  it("gives what both judges give, or what the rule of the case says, in every case", () => {
    const wrong = cases.flatMap((one, index) => {
      const should = wantedResult(one, judged.get(one.formula) as Judged);
      const gave = results[index] as string;
      return should !== undefined && isSameResult(gave, should) ? [] : [`${one.formula} gave ${gave} for ${should}`];
    });
    expect(wrong).toEqual([]);
  });

  it("names a rule with its source wherever the judges differ, and holds no rule that decides nothing", () => {
    const rules = readRules().map(({ name }) => name);
    expect(new Set(rules).size).toBe(rules.length);
    const undecided = cases.filter(({ formula, decided, rule }) => {
      const { libreOffice, gnumeric } = judged.get(formula) as Judged;
      const differ = !isSameResult(libreOffice, gnumeric);
      return (differ && decided === undefined) || (decided !== undefined && !rules.includes(rule ?? ""));
    });
    expect(undecided.map(({ formula }) => formula)).toEqual([]);
    const used = new Set(cases.map(({ rule }) => rule));
    expect(rules.filter((name) => !used.has(name))).toEqual([]);
  });

  it("is counted in docs/calculation.md", () => {
    const standing = new Map(readRules().map((rule) => [rule.name, rule.standing]));
    const byStanding = (wanted: string) => cases.filter(({ rule }) => standing.get(rule ?? "") === wanted).length;
    const called = new Set(cases.flatMap(({ formula }) => formula.match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? []));
    const agreed = cases.filter(({ decided }) => decided === undefined).length;
    expect(readFileSync(new URL("../../docs/calculation.md", import.meta.url), "utf8")).toContain(
      `A corpus of ${cases.length.toLocaleString("en-US")} formulas calls ${called.size} functions. In ` +
        `${agreed.toLocaleString("en-US")} both judges give the same, and so does this program; ${cases.length - agreed} ` +
        `are decided by ${standing.size} rules: ${byStanding("read")} by a source that was read, ${byStanding("stored")} by ` +
        `what Excel stored, ${byStanding("from memory")} by a page named from memory, ${byStanding("one judge")} by one ` +
        `judge, ${byStanding("no source")} by practice without a source.`,
    );
  });

  it("is judged today as it was when its results were kept: a sample", () => {
    const sample = cases.filter((_, index) => index % 9 === 0).map(({ formula }) => formula);
    const bytes = corpusWorkbook(sample);
    const [libreOffice, gnumeric] = [recalculatedByLibreOffice(bytes), recalculatedByGnumeric(bytes)].map((made) =>
      corpusResults(openWorkbook(made, "judged.xlsx"), sample.length),
    );
    // A whole column means the row of the formula, which is the same; columns of a sample lie elsewhere.
    const moved = sample.flatMap((formula, index) => {
      const known = judged.get(formula) as Judged;
      const now = { libreOffice: libreOffice?.[index] ?? "", gnumeric: gnumeric?.[index] ?? "" };
      const isSame = isSameResult(known.libreOffice, now.libreOffice) && isSameResult(known.gnumeric, now.gnumeric);
      return isSame ? [] : [`${formula}: ${JSON.stringify(known)} is now ${JSON.stringify(now)}`];
    });
    expect(moved).toEqual([]);
  }, 170_000);
});

describe("docs/calculation.md", () => {
  it("lists the functions that are calculated, and no others", () => {
    const text = readFileSync(new URL("../../docs/calculation.md", import.meta.url), "utf8");
    for (const [group, specs] of Object.entries(FUNCTION_GROUPS)) {
      expect(text).toContain(
        `**${group}**: ${specs
          .map(({ name }) => name)
          .sort()
          .join(", ")}.`,
      );
    }
    expect(text).toContain(`${Object.values(FUNCTION_GROUPS).flat().length} functions of spreadsheet programs`);
  });
});
