import { type CellRange, formatAddress, formatRange, moveFormula, parseRange } from "../../xlsx/index.js";
import { type BlockAddress, type BlockEdit, type CellBlock, HostError, type WorkbookHost } from "../host.js";

/** So far above a row its formulas are looked for: a page of rows that were inserted or typed below a table. */
const ROWS_ABOVE = 200;

/** A row of a list has several results; a single formula may be a total, or a note that counts. */
const LEAST_FORMULAS = 2;

interface ModelRow {
  readonly row: number;
  /** By column from 1. */
  readonly formulas: ReadonlyMap<number, string>;
}

function rowOf(block: CellBlock, { firstRow }: CellRange, row: number): ModelRow {
  const formulas = (block.formulas[row - firstRow] ?? []).flatMap((formula, index) =>
    formula === null ? [] : [[index + 1, formula] as const],
  );
  return { row, formulas: new Map(formulas) };
}

function modelAbove(block: CellBlock, range: CellRange, row: number): ModelRow | undefined {
  for (let above = row - 1; above >= range.firstRow; above -= 1) {
    const model = rowOf(block, range, above);
    if (model.formulas.size >= LEAST_FORMULAS) return model;
  }
  return undefined;
}

function filled(formula: string, rows: number): string {
  return `=${moveFormula(formula.replace(/^=/, ""), rows, 0)}`;
}

/**
 * Fills the formulas of the nearest row above into the empty cells of rows that have none; what is typed there stays.
 *
 * @param rows - Cells of the rows, as a finding names them
 * @returns How many formulas were filled in
 * @throws {HostError} When no row above has formulas, or nothing is empty
 */
export async function fillFormulas(host: WorkbookHost, { sheet, range: rows }: BlockAddress): Promise<number> {
  const asked = parseRange(rows);
  const used = parseRange((await host.sheets()).find(({ name }) => name === sheet)?.usedRange ?? "");
  if (asked === undefined || used === undefined) throw new HostError(`There are no rows ${rows} on sheet “${sheet}”.`);
  const range = {
    firstRow: Math.max(1, asked.firstRow - ROWS_ABOVE),
    firstColumn: 1,
    lastRow: asked.lastRow,
    lastColumn: used.lastColumn,
  };
  const [block] = await host.read([{ sheet, range: formatRange(range) }]);
  const model = block && modelAbove(block, range, asked.firstRow);
  if (block === undefined || model === undefined) {
    throw new HostError(`No row above row ${asked.firstRow} of “${sheet}” has formulas to copy.`);
  }
  const edits: BlockEdit[] = [];
  for (let row = asked.firstRow; row <= asked.lastRow; row += 1) {
    const values = block.values[row - range.firstRow] ?? [];
    const own = rowOf(block, range, row).formulas;
    for (const [column, formula] of model.formulas) {
      const value = values[column - 1] ?? null;
      if (own.has(column) || (value !== null && value !== "")) continue;
      edits.push({
        address: { sheet, range: formatAddress(row, column) },
        cells: [[filled(formula, row - model.row)]],
      });
    }
  }
  if (edits.length === 0) throw new HostError(`Every cell for a formula in ${rows} of “${sheet}” is in use already.`);
  await host.write(edits);
  return edits.length;
}
