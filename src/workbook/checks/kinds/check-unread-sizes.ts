import { isInRange, parseRange } from "../../../xlsx/index.js";
import type { Finding } from "../../finding.js";
import type { ListColumnKey, OutletList } from "../../lists/index.js";
import type { PlacedFormula, WorkbookIndex } from "../formulas/workbook-index.js";
import type { CheckedList } from "../listed/checked-lists.js";
import { type Draft, oneCell } from "../support/draft.js";

const SIZES: readonly ListColumnKey[] = ["width", "height", "diameter", "size"];

const isUnread = ({ kind }: Finding) => kind === "not-a-number" || kind === "out-of-range";

function isOfSize({ columns }: OutletList, { cell }: Finding): boolean {
  const column = parseRange(cell)?.firstColumn;
  return SIZES.some((key) => columns.has(key) && columns.get(key) === column);
}

/** The formulas that take a cell, whose errors are then told by it. */
function readersOf(index: WorkbookIndex, sheet: number, row: number, column: number): readonly PlacedFormula[] {
  return index.formulas.filter(
    (formula) =>
      formula.sheet === sheet &&
      formula.row === row &&
      index.parsed(formula).operands.some((operand) => {
        const block = index.resolve(operand, formula);
        return block !== undefined && block.sheet === sheet && isInRange(block.range, row, column);
      }),
  );
}

/** Sizes of a list that are there and cannot be read: words, a calculation, a date that 6/8 became. */
export function checkUnreadSizes(index: WorkbookIndex, lists: readonly CheckedList[]): readonly Draft[] {
  return lists.flatMap(({ sheet, list, outlets }) =>
    outlets.flatMap(({ row: { row }, findings }) =>
      findings
        .filter((finding) => isUnread(finding) && isOfSize(list, finding))
        .map(({ cell, problem, action }): Draft => {
          const range = parseRange(cell) ?? oneCell(row, 1);
          const explains = readersOf(index, sheet, row, range.firstColumn);
          return { kind: "size-not-read", severity: "error", sheet, range, problem, action, explains };
        }),
    ),
  );
}
