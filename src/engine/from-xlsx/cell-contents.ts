import { type CellValue, cellsOf, isInRange, type Sheet } from "../../xlsx/index.js";
import type { KeptFormula } from "../calculate-xlsx.js";
import { cellPacker, type PackedCells } from "../in-steps/packed-cells.js";
import { typedContent } from "../typed-content.js";
import type { FormulaSpeller } from "./formula-speller.js";

/** What stands in the cells of a sheet, as it would be typed. */
export interface CellContents {
  readonly cells: PackedCells;
  /** Formulas that the engine cannot calculate; the stored value stands in their place. */
  readonly kept: readonly KeptFormula[];
}

/** Returns a stored value as it would be typed. */
export function storedContent(value: CellValue): string {
  if (value === null) return "";
  if (typeof value === "object") return value.error;
  // A text of a file is no formula, whatever it begins with.
  if (typeof value === "string" && /^[=+]/.test(value)) return `'${value}`;
  return typedContent(value);
}

/** Reads the contents of a sheet; cells that an array formula fills belong to that formula. */
export function cellContents(sheet: Sheet, speller: FormulaSpeller): CellContents {
  const cells = cellPacker();
  const kept: KeptFormula[] = [];
  const filled = sheet.cells.formulas.some(({ kind }) => kind === "array") ? filledRanges(sheet) : [];
  for (const { row, column, address, value, formula } of cellsOf(sheet)) {
    if (formula === undefined) {
      if (value === null || filled.some((range) => isInRange(range, row, column))) continue;
      // A text of no length is a text: the apostrophe keeps its cell from being empty.
      cells.add(address, value === "" ? "'" : storedContent(value));
      continue;
    }
    const spelled =
      formula.kind === "dataTable"
        ? { reason: "it is a what-if table" }
        : speller.spell(formula.text, sheet.name, row, column, formula.kind === "array");
    if ("content" in spelled) cells.add(address, spelled.content);
    else {
      kept.push({ sheet: sheet.name, address, reason: spelled.reason, isOutdated: false });
      const content = storedContent(value);
      if (content !== "") cells.add(address, content);
    }
  }
  return { cells: cells.packed(), kept };
}

function filledRanges(sheet: Sheet) {
  return [...cellsOf(sheet)].flatMap(({ formula }) =>
    formula?.kind === "array" && formula.range !== undefined ? [formula.range] : [],
  );
}
