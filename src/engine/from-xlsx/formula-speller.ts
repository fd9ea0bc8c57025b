import { CompiledFormula } from "@odoo/o-spreadsheet";
import {
  type PlacedTable,
  readSheet,
  relativeForm,
  type Sheet,
  type Workbook,
  withoutTableReferences,
} from "../../xlsx/index.js";
import { engineSpelling } from "../engine-spelling.js";
import { prepareEngine } from "../prepare-engine.js";
import { pageSpelling } from "./page-spelling.js";
import { type ResolvedNames, resolveNames } from "./resolve-names.js";

/** A formula as the engine reads it, with its equals sign, or why the engine cannot calculate it. */
export type SpelledFormula = { readonly content: string } | { readonly reason: string };

/** Spells the formulas of a workbook for the engine. */
export interface FormulaSpeller {
  readonly names: ResolvedNames;
  readonly sheets: readonly Sheet[];
  /** `isArray` says whether the file marks it as an array formula, so that blocks are calculated whole. */
  spell(text: string, sheet: string, row: number, column: number, isArray?: boolean): SpelledFormula;
}

/** What the engine asks of a workbook while it compiles: where a reference points. Only whether it compiles matters. */
const KEEP_TEXT = { getRangeFromSheetXC: (_sheet: string, text: string) => text };

/** Makes a speller for the formulas of a workbook: names and tables become plain references, calls our spelling. */
export function makeFormulaSpeller(workbook: Workbook): FormulaSpeller {
  prepareEngine();
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  const tables: readonly PlacedTable[] = sheets.flatMap((sheet) =>
    sheet.tables.map((table) => ({ sheet: sheet.name, table })),
  );
  const names = resolveNames(workbook);
  const sheetNames = sheets.map(({ name }) => name);
  /** Formulas that read the same from their own cells compile alike. */
  const compiles = new Map<string, boolean>();
  /** Those of a sheet that the page reads as they are: a list has the same formulas on each row. */
  const asTheyAre = new Set<string>();
  return {
    names,
    sheets,
    spell(text, sheet, row, column, isArray = true) {
      if (text === "") return { reason: "the file lacks its text" };
      const own = `${isArray} ${sheet}!${relativeForm(text, row, column)}`;
      if (asTheyAre.has(own)) return { content: engineSpelling(`=${text}`) };
      const plain = withoutTableReferences(text, { sheet, row, column }, tables);
      if (plain === undefined) return { reason: "it names a table or another workbook that is not here" };
      const named = names.inFormula(plain, sheet, row, column);
      const onPage = pageSpelling(named, { row, column, sheets: sheetNames, isBlock: names.isBlock }, isArray);
      if ("reason" in onPage) return onPage;
      const content = engineSpelling(`=${onPage.text}`);
      const form = relativeForm(content, row, column);
      const known = compiles.get(form) ?? !CompiledFormula.Compile(content, "", KEEP_TEXT as never).isBadExpression;
      compiles.set(form, known);
      if (known && content === engineSpelling(`=${text}`)) asTheyAre.add(own);
      return known ? { content } : { reason: "it has a function or spelling that this page does not know" };
    },
  };
}
