/*
 * Calculates workbooks of random formulas, and has LibreOffice calculate them too: every cell agrees, or is listed as not
 * calculated.
 *
 * node build/src/tools/formulas/fuzz.js [seed] [formulas]
 */
import { calculateXlsx } from "../../engine/index.js";
import { openWorkbook, patchWorkbook } from "../../xlsx/index.js";
import { corpusPlace, corpusWorkbook } from "./corpus-workbook.js";
import { corpusResults } from "./judge.js";
import { randomFormulas } from "./random-formulas.js";
import { isSameResult } from "./read-corpus.js";
import { recalculatedByLibreOffice } from "./recalculate.js";

/** What random formulas came to. */
export interface Fuzzed {
  readonly count: number;
  /** Formulas that are listed as not calculated. */
  readonly listed: number;
  /** How many gave an error in both. */
  readonly errors: number;
  /** Formulas that gave something else, and no formula that they lean on did. */
  readonly different: readonly { readonly formula: string; readonly ours: string; readonly theirs: string }[];
}

/** The formulas of the same sheet that a formula reads. */
function readBy(formula: string): readonly string[] {
  return [...formula.matchAll(/(?<![!:A-Z$])([A-Z]{1,2}5)(?![\d:(])/g)].map(([, at = ""]) => at);
}

/** Whether two results agree; LibreOffice has errors of its own, which a file keeps as #VALUE!. */
function agree(own: string, other: string): boolean {
  return isSameResult(own, other) || (own.startsWith("#") && other === "#VALUE!");
}

/** Compares what random formulas give here and in LibreOffice. */
export function fuzz(seed: number, count: number): Fuzzed {
  const formulas = randomFormulas(seed, count);
  const bytes = corpusWorkbook(formulas);
  const workbook = openWorkbook(bytes, "random.xlsx");
  const { edits, kept } = calculateXlsx(workbook);
  const ours = corpusResults(openWorkbook(patchWorkbook(workbook, edits), "random.xlsx"), count);
  const theirs = corpusResults(openWorkbook(recalculatedByLibreOffice(bytes), "random.xlsx"), count);
  const listed = new Set(kept.map(({ sheet, address }) => `${sheet}!${address}`));
  const differing = new Set<string>();
  const different = formulas.flatMap((formula, index) => {
    const { sheet, address } = corpusPlace(index);
    const [own = "", other = ""] = [ours[index], theirs[index]];
    if (listed.has(`${sheet}!${address}`) || agree(own, other)) return [];
    differing.add(`${sheet}!${address}`);
    const isFollowing = readBy(formula).some((at) => differing.has(`${sheet}!${at}`));
    return isFollowing ? [] : [{ formula, ours: own, theirs: other }];
  });
  return { count, listed: listed.size, errors: ours.filter((one) => one.startsWith("#")).length, different };
}

if (process.argv[1]?.endsWith("fuzz.js")) {
  const [seed = "1", count = "2000"] = process.argv.slice(2);
  const { listed, errors, different } = fuzz(Number(seed), Number(count));
  for (const { formula, ours, theirs } of different)
    console.log(`${formula}\n  ${ours} here, ${theirs} in LibreOffice`);
  console.log(
    `Seed ${seed}: ${count} formulas, ${errors} of them errors, ${listed} listed as not calculated, ${different.length} differ.`,
  );
  process.exitCode = different.length === 0 ? 0 : 1;
}
