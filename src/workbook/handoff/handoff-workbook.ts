import { strFromU8 } from "fflate";
import {
  type FormulaEdit,
  formulaCellsOf,
  readSheet,
  type Sheet,
  type Table,
  type Workbook,
  type WorkbookEdit,
} from "../xlsx/index.js";
import { readOptionalPart, readPart } from "../xlsx/package/read-part.js";
import { escapeXml } from "../xlsx/xml/text.js";
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

const COLUMN_FORMULA = /<((?:\w+:)?calculatedColumnFormula)(?:\s[^>]*)?>[^<]*<\/\1>/g;

/** A table fills new rows by a formula of its own: it becomes plain too, or is left out. */
function tableEdit(workbook: Workbook, table: Table): readonly WorkbookEdit[] {
  const formulas = table.columns.flatMap(({ calculatedFormula }) => calculatedFormula ?? []);
  if (formulas.every((formula) => handoffFormula(formula).kind === "unchanged")) return [];
  let index = -1;
  const part = strFromU8(readPart(workbook.archive, table.partName));
  const content = part.replaceAll(COLUMN_FORMULA, (whole, name: string) => {
    index += 1;
    const handoff = handoffFormula(formulas[index] ?? "");
    if (handoff.kind === "unchanged") return whole;
    return handoff.kind === "value" ? "" : `<${name}>${escapeXml(handoff.formula)}</${name}>`;
  });
  return [{ kind: "part", partName: table.partName, content }];
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
