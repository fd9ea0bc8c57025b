import { type CellRange, formatRange, parseAddress } from "../../xlsx/address.js";
import type { HandoffCell } from "./handoff-cell.js";

/** Cells that form a block, and that the same is to be said of; the address is that of the block. */
export type HandoffBlock = HandoffCell;

type Run = CellRange & { readonly cell: HandoffCell };

/** Cells below each other as one run, in the order of their columns. */
function runsOf(cells: readonly HandoffCell[]): readonly Run[] {
  const placed = cells
    .flatMap((cell) => {
      const at = parseAddress(cell.address);
      return at === undefined ? [] : [{ ...at, cell }];
    })
    .sort((one, other) => one.column - other.column || one.row - other.row);
  const runs: Run[] = [];
  for (const { row, column, cell } of placed) {
    const last = runs.at(-1);
    if (last !== undefined && last.firstColumn === column && last.lastRow === row - 1) {
      runs[runs.length - 1] = { ...last, lastRow: row };
    } else {
      runs.push({ firstRow: row, lastRow: row, firstColumn: column, lastColumn: column, cell });
    }
  }
  return runs;
}

/** Runs beside each other that reach over the same rows, as one block. */
function joined(runs: readonly Run[]): readonly Run[] {
  const blocks = new Map<string, Run>();
  for (const run of runs) {
    const rows = `${run.firstRow}:${run.lastRow}`;
    const beside = blocks.get(`${rows} before ${run.firstColumn}`);
    if (beside !== undefined) blocks.delete(`${rows} before ${run.firstColumn}`);
    blocks.set(`${rows} before ${run.lastColumn + 1}`, { ...(beside ?? run), lastColumn: run.lastColumn });
  }
  return [...blocks.values()];
}

/** Puts cells that form a block and keep their values for the same reason together, so that a list of them is short. */
export function cellBlocks(cells: readonly HandoffCell[]): readonly HandoffBlock[] {
  const alike = new Map<string, HandoffCell[]>();
  for (const cell of cells) {
    const key = JSON.stringify([cell.sheet, cell.functions, cell.reasons]);
    const group = alike.get(key);
    if (group === undefined) alike.set(key, [cell]);
    else group.push(cell);
  }
  return [...alike.values()].flatMap((group) =>
    joined(runsOf(group)).map(({ cell, ...range }) => ({ ...cell, address: formatRange(range) })),
  );
}
