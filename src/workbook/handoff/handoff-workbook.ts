import {
  type FormulaEdit,
  formulaCellsOf,
  readSheet,
  type Sheet,
  type Table,
  type Workbook,
  type WorkbookEdit,
} from "../../xlsx/index.js";
import { placeOf, readOptionalPart, readPart } from "../../xlsx/package/read-part.js";
import { prefixAt, readXml } from "../../xlsx/xml/read-xml.js";
import { type Splice, spliceBytes } from "../../xlsx/xml/splice.js";
import { escapeXml } from "../../xlsx/xml/text.js";
import type { HandoffCell } from "./handoff-cell.js";
import { handoffFormula, notedValue } from "./handoff-formula.js";
import { noteSheetEdits } from "./note-sheet.js";

/** How to turn a workbook into its hand-off copy, and what becomes of it. */
export interface Handoff {
  readonly edits: readonly WorkbookEdit[];
  /** Cells whose formula is now a plain one. */
  readonly plain: readonly HandoffCell[];
  /** Cells that keep their value, with a note in the formula. */
  readonly values: readonly HandoffCell[];
}

interface CellHandoff {
  readonly edit: FormulaEdit;
  readonly cell: HandoffCell;
  readonly isPlain: boolean;
}

function cellHandoffs(sheet: Sheet): readonly CellHandoff[] {
  const changed: CellHandoff[] = [];
  for (const { address, value, formula } of formulaCellsOf(sheet)) {
    const handoff = handoffFormula(formula.text);
    if (handoff.kind === "unchanged") continue;
    const isPlain = handoff.kind === "plain";
    const text = isPlain ? handoff.formula : notedValue(value, handoff.functions);
    changed.push({
      edit: { kind: "formula", sheet: sheet.name, address, formula: text, result: value, form: "plain" },
      cell: { sheet: sheet.name, address, functions: handoff.functions },
      isPlain,
    });
  }
  return changed;
}

/** A table fills new rows by a formula of its own: it becomes plain too, or is left out. */
function tableEdit({ archive }: Workbook, { partName, columns }: Table): readonly WorkbookEdit[] {
  const calls = (formula: string | undefined) => formula !== undefined && handoffFormula(formula).kind !== "unchanged";
  if (!columns.some(({ calculatedFormula }) => calls(calculatedFormula))) return [];
  const part = readPart(archive, partName);
  const splices: Splice[] = [];
  let formula: { readonly start: number; text: string } | undefined;
  readXml(part, placeOf(archive, partName), {
    open(name, _attributes, depth, start) {
      if (depth === 4 && name === "calculatedColumnFormula") formula = { start, text: "" };
    },
    text(chunk) {
      if (formula !== undefined) formula.text += chunk;
    },
    close(name, depth, _start, end) {
      if (depth !== 4 || formula === undefined) return;
      const { start, text } = formula;
      const handoff = handoffFormula(text);
      const tag = prefixAt(part, start) + name;
      formula = undefined;
      if (handoff.kind === "unchanged") return;
      const plain = handoff.kind === "plain" ? `<${tag}>${escapeXml(handoff.formula)}</${tag}>` : "";
      splices.push({ start, end, text: plain });
    },
  });
  return [{ kind: "part", partName, content: spliceBytes(part, splices) }];
}

/** The parts by which Excel would offer the add-in; a copy for people without it does not ask for it. */
function addinEdits(workbook: Workbook): readonly WorkbookEdit[] {
  const parts = ["xl/webextensions/taskpanes.xml", "xl/webextensions/webextension1.xml"];
  return parts
    .filter((partName) => readOptionalPart(workbook.archive, partName) !== undefined)
    .map((partName) => ({ kind: "removePart", partName }));
}

/**
 * Works out the hand-off copy of a workbook: every call of our functions as a plain formula that any spreadsheet
 * program calculates, or as its value with a note. Everything else stays as it is; a sheet that says so is added.
 *
 * @param workbook - As opened, its results calculated
 */
export function handoffOf(workbook: Workbook): Handoff {
  const sheets = workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .map(({ name }) => readSheet(workbook, name));
  const cells = sheets.flatMap(cellHandoffs);
  const plain = cells.filter(({ isPlain }) => isPlain).map(({ cell }) => cell);
  const values = cells.filter(({ isPlain }) => !isPlain).map(({ cell }) => cell);
  if (cells.length === 0) return { edits: [], plain, values };
  const edits = [
    ...cells.map(({ edit }) => edit),
    ...sheets.flatMap(({ tables }) => tables.flatMap((table) => tableEdit(workbook, table))),
    ...addinEdits(workbook),
    ...noteSheetEdits(workbook, plain, values),
  ];
  return { edits, plain, values };
}
