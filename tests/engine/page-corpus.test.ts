import { describe, expect, it } from "vitest";
import { createModel, workbookData } from "../../src/engine/index.js";
import { corpusPlace, corpusWorkbook } from "../../src/tools/formulas/corpus-workbook.js";
import {
  isSameResult,
  type Judged,
  readCorpus,
  readJudged,
  spelledResult,
  wantedResult,
} from "../../src/tools/formulas/read-corpus.js";
import { openWorkbook } from "../../src/xlsx/index.js";

/** What the page does not calculate, by its reason: such a formula shows what the file stores, and is listed. */
const NOT_ON_PAGE: Readonly<Record<string, readonly string[]>> = {
  "it joins references in a way that this page does not calculate": [
    "=SUM(D!A1:INDEX(D!A1:A8,3))",
    "=SUM(INDEX(D!A1:A8,2):INDEX(D!A1:A8,4))",
    "=D!A1:A3 D!C1:C3",
    "=INDEX((D!A1:A3,D!G1:G8),2,1,2)",
    "=SUM(D!A1:CHOOSE(2,D!A2,D!A3))",
  ],
  "it takes one cell of a block that has none in its row or column": ["=D!A1:C1", "=D!A1:B3"],
  "it takes one cell of a block that it makes itself": ["=INDEX(D!A1:A8,0)", "=INDEX(D!I1:K4,2,0)"],
  "it asks INDIRECT for another style of reference": ['=INDIRECT("D!R2C1",FALSE)'],
  "it counts whole rows or columns": ["=ROWS(D!A:A)", "=COLUMNS(D!1:1)"],
  "AREAS is not calculated on this page": ["=AREAS((D!A1,D!B2:B3))", "=AREAS((A1:Z9,B2))"],
  "SHEETS is not calculated on this page": ["=SHEETS('Floor 1:Floor 3'!A1)"],
  "it has a function or spelling that this page does not know": [
    "=ERROR.TYPE(#NUM!)",
    "=ERROR.TYPE(#NULL!)",
    "=ERROR.TYPE(#NAME?)",
    '="Hall"+#DIV/0!',
    '=#DIV/0!+"Hall"',
  ],
  "MAP is not calculated on this page": ["{=SUM(MAP(D!A1:A3,LAMBDA(a,a*a)))}"],
  "REDUCE is not calculated on this page": [
    "{=REDUCE(0,D!A1:A3,LAMBDA(a,b,a+b^2))}",
    "{=REDUCE(,D!A1:A3,LAMBDA(a,b,a+b))}",
    "{=REDUCE(,D!A1:A3,LAMBDA(a,b,a+b^2))}",
  ],
  "SCAN is not calculated on this page": [
    "{=INDEX(SCAN(1,{1,2,3},LAMBDA(a,b,a*b)),3)}",
    "{=INDEX(SCAN(,D!A1:A3,LAMBDA(a,b,a*b)),3)}",
  ],
  "BYROW is not calculated on this page": ["{=INDEX(BYROW(D!I1:K4,LAMBDA(row,MAX(row))),4)}"],
  "BYCOL is not calculated on this page": ["{=INDEX(BYCOL(D!I1:K4,LAMBDA(column,MAX(column))),2)}"],
  "MAKEARRAY is not calculated on this page": ["{=SUM(MAKEARRAY(2,3,LAMBDA(r,c,r*c)))}"],
};

describe("the corpus of formulas in a file that the page opens", () => {
  const cases = readCorpus();
  const judged = readJudged();
  const { data, kept } = workbookData(openWorkbook(corpusWorkbook(cases.map(({ formula }) => formula)), "corpus.xlsx"));
  const model = createModel(data);
  const reasons = new Map(kept.map(({ sheet, address, reason }) => [`${sheet}!${address}`, reason]));
  const reasonOf = (index: number) => {
    const { sheet, address } = corpusPlace(index);
    return reasons.get(`${sheet}!${address}`);
  };

  function shown(index: number): string {
    const { sheet, row, column } = corpusPlace(index);
    const sheetId = model.getters.getSheetIdByName(sheet) ?? "";
    const cell = model.getters.getEvaluatedCell({ sheetId, row: row - 1, col: column - 1 });
    return cell.type === "error" ? String(cell.value) : spelledResult(cell.value);
  }

  it("gives what every other host gives, or is listed as not calculated", () => {
    const wrong = cases.flatMap((one, index) => {
      if (reasonOf(index) !== undefined) return [];
      const [gave, should] = [shown(index), wantedResult(one, judged.get(one.formula) as Judged) ?? ""];
      return isSameResult(gave, should) ? [] : [`${one.formula} shows ${gave} for ${should}`];
    });
    expect(wrong).toEqual([]);
  });

  it("lists what is not calculated, each with its reason, and nothing else", () => {
    const listed: Record<string, string[]> = {};
    cases.forEach(({ formula }, index) => {
      const reason = reasonOf(index);
      if (reason !== undefined) listed[reason] = [...(listed[reason] ?? []), formula];
    });
    expect(listed).toEqual(NOT_ON_PAGE);
  });
});
