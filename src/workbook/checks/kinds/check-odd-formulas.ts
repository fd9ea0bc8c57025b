import { type FormulaToken, moveFormula, scanFormula } from "../../../xlsx/index.js";
import { callsVane, cellOf, type PlacedFormula, type WorkbookIndex } from "../formulas/workbook-index.js";
import { type Draft, grouped, oneCell } from "../support/draft.js";
import { LEAST_LIKE_FORMULAS, NEAR_ROWS } from "../thresholds.js";

const ADDS_UP =
  /(?:^|[^\w.])(?:SUM|SUBTOTAL|AGGREGATE|COUNT|COUNTA|AVERAGE|MIN|MAX)\(\s*(?:\d+\s*,\s*)?\$?([A-Z]{1,3})\$?(\d+):\$?([A-Z]{1,3})\$?(\d+)/i;

/** Whether a formula goes over several rows, as a total does. */
function goesOverRows({ text }: PlacedFormula): boolean {
  const [, , from, , to] = ADDS_UP.exec(text) ?? [];
  return from !== undefined && from !== to;
}

/** A formula that reads nothing of its own row, such as the word for a unit, is no one of a column. */
const readsItsRow = ({ form }: PlacedFormula) => form.includes("R[0]");

const isPlain = (formula: PlacedFormula) =>
  !callsVane(formula) && formula.fills === undefined && !goesOverRows(formula);

/** What differs between two formulas, in words; "" where it is more than a piece or two. */
function difference(odd: string, like: string): string {
  const solid = (text: string) => scanFormula(text).filter(({ text: piece }) => piece.trim() !== "");
  const [one, other] = [solid(odd), solid(like)];
  if (one.length !== other.length) return "";
  const pairs = one.flatMap((token, index): readonly (readonly [FormulaToken, FormulaToken])[] => {
    const same = other[index];
    return same === undefined || same.text.toUpperCase() === token.text.toUpperCase() ? [] : [[token, same]];
  });
  if (pairs.length === 0 || pairs.length > 2) return "";
  return pairs.map(([token, same]) => ` It has ${token.text} where ${same.text} would be expected.`).join("");
}

function draft(odd: PlacedFormula, like: PlacedFormula): Draft {
  const expected = moveFormula(like.text, odd.row - like.row, 0);
  const differs = difference(odd.text, expected);
  return {
    difference: `${differs === "" ? ` Its neighbors read =${expected} here.` : differs}`,
    kind: "formula-differs",
    severity: "warning",
    sheet: odd.sheet,
    range: oneCell(odd.row, odd.column),
    problem: `The formula =${odd.text} reads otherwise than those above and below it, which would be =${expected} here.${differs}`,
    action: `Copy the formula from ${cellOf(like)}, or say in a note why this row differs.`,
  };
}

/** Whether a row belongs to its neighbor's: another column has the same formula in both. */
function isSameRow(index: WorkbookIndex, { sheet, row, column }: PlacedFormula, like: PlacedFormula): boolean {
  const last = index.sheets[sheet]?.lastColumn ?? 0;
  for (let other = 1; other <= last; other += 1) {
    const form = other === column ? undefined : index.formulaAt(sheet, row, other)?.form;
    if (form !== undefined && form === index.formulaAt(sheet, like.row, other)?.form) return true;
  }
  return false;
}

/** Formulas that read otherwise than those above and below them in a column of like ones. */
export function checkOddFormulas(index: WorkbookIndex): readonly Draft[] {
  const columns = grouped(index.formulas.filter(isPlain), ({ sheet, column }) => `${sheet}!${column}`);
  return [...columns.values()].flatMap((formulas) => {
    const counts = new Map([...grouped(formulas, ({ form }) => form)].map(([form, alike]) => [form, alike.length]));
    const isLike = (one: PlacedFormula | undefined) => (counts.get(one?.form ?? "") ?? 0) >= LEAST_LIKE_FORMULAS;
    return formulas.flatMap((formula, at) => {
      if (isLike(formula)) return [];
      const [above, below] = [formulas[at - 1], formulas[at + 1]];
      const near = (one: PlacedFormula | undefined) =>
        one !== undefined && Math.abs(one.row - formula.row) <= NEAR_ROWS;
      const first = near(above) ? above : below;
      // Between two like ones, or right behind the last of them as the end of a list.
      const isBetween = near(above) && near(below) && above?.form === below?.form && isLike(above);
      const isAtEnd =
        first !== undefined &&
        isLike(first) &&
        near(first) &&
        isSameRow(index, formula, first) &&
        Math.abs((first?.row ?? 0) - formula.row) === 1 &&
        (above === undefined || below === undefined || !near(above) || !near(below));
      return first !== undefined && readsItsRow(first) && (isBetween || isAtEnd) ? [draft(formula, first)] : [];
    });
  });
}
