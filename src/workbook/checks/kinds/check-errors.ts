import type { SourceValue } from "../../source/index.js";
import {
  callsVane,
  cellOf,
  type PlacedFormula,
  type PlacedRange,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { type Draft, oneCell } from "../support/draft.js";
import { filledIn } from "../support/readings.js";

interface ShownError {
  readonly error: string;
  readonly message: string;
}

function errorOf(value: SourceValue): ShownError | undefined {
  return typeof value === "object" && value !== null ? value : undefined;
}

/** The first cell in error among those that a formula reads. */
function errorInput(
  index: WorkbookIndex,
  formula: PlacedFormula,
): (PlacedRange & { readonly shown: ShownError }) | undefined {
  for (const operand of index.parsed(formula).operands) {
    const block = index.resolve(operand, formula);
    if (block === undefined) continue;
    for (const { row, column, value } of filledIn(index, block)) {
      const shown = errorOf(value);
      if (shown !== undefined) return { sheet: block.sheet, range: oneCell(row, column), shown };
    }
  }
  return undefined;
}

/** Whether the error began in another formula of ours, which is told there. */
function isPassedOn(index: WorkbookIndex, formula: PlacedFormula, seen: Set<PlacedFormula>): boolean {
  const input = errorInput(index, formula);
  if (input === undefined) return false;
  const { firstRow, firstColumn } = input.range;
  const source = index.formulaAt(input.sheet, firstRow, firstColumn);
  if (source === undefined || seen.has(source)) return false;
  if (callsVane(source)) return true;
  seen.add(source);
  return isPassedOn(index, source, seen);
}

/** The first sentence of a message says what is wrong, the rest what to do. */
function sentences(message: string): readonly [string, string] {
  const [, first = message, rest = ""] = /^(.*?[.!?])\s+(?=[A-Z])(.*)$/s.exec(message.trim()) ?? [];
  return [first.trim(), rest.trim()];
}

const CURES: Readonly<Record<string, string>> = {
  "#N/A": "Enter what is missing.",
  "#REF!": "The formula names cells that were deleted: point it to the right ones.",
  "#DIV/0!": "Look at the cells that the formula divides by.",
};

function draft(index: WorkbookIndex, formula: PlacedFormula, { error, message }: ShownError): Draft {
  const input = errorInput(index, formula);
  const { firstRow: row = 0, firstColumn: column = 0 } = input?.range ?? {};
  const from = input === undefined ? "" : `${cellOf({ row, column })} shows ${input.shown.error}.`;
  const [cause, cure] = sentences(message);
  const said = from !== "" ? from : cause.replace(/[^.!?]$/, "$&.");
  return {
    kind: "error-value",
    severity: error === "#N/A" ? "warning" : "error",
    isUnfinished: error === "#N/A",
    sheet: formula.sheet,
    range: oneCell(formula.row, formula.column),
    problem: said === "" ? `The formula shows ${error}.` : `The formula shows ${error}: ${said}`,
    action:
      (from === "" && cure) ||
      (from !== ""
        ? `Correct ${cellOf({ row, column })} first.`
        : (CURES[error] ?? "Correct the input that it names.")),
  };
}

/** Errors of our calls that no other finding explains, where they began. */
export function checkErrors(index: WorkbookIndex, explained: ReadonlySet<PlacedFormula>): readonly Draft[] {
  return index.formulas.filter(callsVane).flatMap((formula) => {
    const shown = errorOf(index.valueAt(formula.sheet, formula.row, formula.column));
    if (shown === undefined || explained.has(formula)) return [];
    return isPassedOn(index, formula, new Set()) ? [] : [draft(index, formula, shown)];
  });
}
