/*
 * Has LibreOffice and Gnumeric calculate every formula of tests/engine/corpus/formulas.txt, and keeps what they say.
 *
 * node build/src/tools/formulas/judge.js
 */
import { writeFileSync } from "node:fs";
import { openWorkbook, parseAddress, readSheet, valueAt, type Workbook } from "../../xlsx/index.js";
import { corpusPlace, corpusWorkbook } from "./corpus-workbook.js";
import { JUDGED_PATH, readCorpus, spelledResult } from "./read-corpus.js";
import { recalculatedByGnumeric, recalculatedByLibreOffice } from "./recalculate.js";

/** Reads the results of formulas of a workbook made by `corpusWorkbook`. */
export function corpusResults(workbook: Workbook, count: number): readonly string[] {
  const sheets = new Map(
    workbook.sheets.filter(({ kind }) => kind === "worksheet").map(({ name }) => [name, readSheet(workbook, name)]),
  );
  return Array.from({ length: count }, (_, index) => {
    const { sheet: name, address } = corpusPlace(index);
    const sheet = sheets.get(name);
    const place = parseAddress(address);
    return sheet === undefined || place === undefined
      ? "nothing"
      : spelledResult(valueAt(sheet, place.row, place.column));
  });
}

if (process.argv[1]?.endsWith("judge.js")) {
  const formulas = readCorpus().map(({ formula }) => formula);
  const bytes = corpusWorkbook(formulas);
  const [libreOffice, gnumeric] = [recalculatedByLibreOffice(bytes), recalculatedByGnumeric(bytes)].map((made) =>
    corpusResults(openWorkbook(made, "judged.xlsx"), formulas.length),
  );
  const lines = formulas.map((formula, index) => `${formula}\t${libreOffice?.[index]}\t${gnumeric?.[index]}`);
  writeFileSync(JUDGED_PATH, `${["formula\tLibreOffice\tGnumeric", ...lines].join("\n")}\n`);
  console.log(`${formulas.length} formulas judged.`);
}
