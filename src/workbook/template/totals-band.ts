import { columnLetters } from "../../xlsx/address.js";
import { cell } from "./plan-parts.js";
import type { CellPlan } from "./sheet-plan.js";
import type { FormatName } from "./style.js";

export interface Total {
  readonly label: string;
  readonly formula: string;
  readonly format: FormatName;
}

/** Totals over a table, label above value, each two columns wide from column B. */
export function totalsBand(
  totals: readonly Total[],
  labelRow: number,
): { readonly cells: readonly CellPlan[]; readonly merges: readonly string[] } {
  const valueRow = labelRow + 1;
  const parts = totals.map(({ label, formula, format }, index) => {
    const [first, second] = [2 * index + 2, 2 * index + 3].map(columnLetters);
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
