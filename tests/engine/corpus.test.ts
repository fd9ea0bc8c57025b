import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { FUNCTION_GROUPS } from "../../src/engine/functions/index.js";
import { calculateXlsx } from "../../src/engine/index.js";
import { corpusWorkbook } from "../../src/tools/formulas/corpus-workbook.js";
import { corpusResults } from "../../src/tools/formulas/judge.js";
import {
  type CorpusCase,
  isSameResult,
  type Judged,
  readCorpus,
  readJudged,
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

/** What a formula should give: what is documented, else what both judges say; undefined where they differ. */
function wanted({ documented }: CorpusCase, { libreOffice, gnumeric }: Judged): string | undefined {
  return documented ?? (isSameResult(libreOffice, gnumeric) ? libreOffice : undefined);
}

describe("the corpus of formulas", () => {
  const results = calculated(cases.map(({ formula }) => formula));

  it("is judged whole, and covers at least 250 functions", () => {
    expect(cases.filter(({ formula }) => !judged.has(formula)).map(({ formula }) => formula)).toEqual([]);
    const called = new Set(cases.flatMap(({ formula }) => formula.match(/[A-Z][A-Z0-9.]*(?=\()/g) ?? []));
    expect(called.size).toBeGreaterThan(250);
    expect(cases.length).toBeGreaterThan(1_600);
  });

  it("gives what both judges give, or what is documented, in every case", () => {
    const wrong = cases.flatMap((one, index) => {
      const should = wanted(one, judged.get(one.formula) as Judged);
      const gave = results[index] as string;
      return should === undefined || isSameResult(gave, should) ? [] : [`${one.formula} gave ${gave} for ${should}`];
    });
    expect(wrong).toEqual([]);
  });

  it("sides with one of the judges where they differ and nothing is documented, but for the cases that say why not", () => {
    const alone = cases.flatMap((one, index) => {
      const { libreOffice, gnumeric } = judged.get(one.formula) as Judged;
      const gave = results[index] as string;
      if (wanted(one, { libreOffice, gnumeric }) !== undefined) return [];
      return isSameResult(gave, libreOffice) || isSameResult(gave, gnumeric)
        ? []
        : [`${one.formula} gave ${gave}, not ${libreOffice} or ${gnumeric}`];
    });
    expect(alone).toEqual([]);
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
