import { columnLetters } from "../../xlsx/address.js";
import { cell } from "./plan-parts.js";
import type { CellPlan } from "./sheet-plan.js";
import type { FormatName } from "./style.js";

export interface Total {
  readonly label: string;
  readonly formula: string;
  readonly format: FormatName;
}

/** Where each total begins: two columns wide from column B, none over the end of a printed page. */
function firstColumns(count: number, pageEnds: readonly number[]): readonly number[] {
  const firsts: number[] = [];
  let column = 2;
  while (firsts.length < count) {
    if (pageEnds.includes(column)) column += 1;
    firsts.push(column);
    column += 2;
  }
  return firsts;
}

/**
 * Totals over a table, label above value, each two columns wide from column B.
 *
 * @param pageEnds - The last columns of printed pages beside one another, from 1
 */
export function totalsBand(
  totals: readonly Total[],
  labelRow: number,
  pageEnds: readonly number[],
): { readonly cells: readonly CellPlan[]; readonly merges: readonly string[] } {
  const valueRow = labelRow + 1;
  const firsts = firstColumns(totals.length, pageEnds);
  const parts = totals.map(({ label, formula, format }, index) => {
    const [first, second] = [firsts[index] ?? 2, (firsts[index] ?? 2) + 1].map(columnLetters);
    return {
      merges: [`${first}${labelRow}:${second}${labelRow}`, `${first}${valueRow}:${second}${valueRow}`],
      cells: [
        cell(`${first}${labelRow}`, label, "totalLabel"),
        cell(`${second}${labelRow}`, null, "totalLabel"),
        cell(`${first}${valueRow}`, formula, "total", format),
        cell(`${second}${valueRow}`, null, "total", format),
      ],
    };
  });
  return { cells: parts.flatMap((part) => part.cells), merges: parts.flatMap((part) => part.merges) };
}
