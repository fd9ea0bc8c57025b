import { FormulaFault } from "../formula/parse-formula.js";
import { gridsBetween, rangeOn } from "../formula/place-reference.js";
import type { FormulaNode, PlacedBlock } from "./formula-node.js";
import type { Prepared } from "./prepare.js";
import type { WorkbookBook } from "./workbook-book.js";

type Referring = Pick<Prepared, "references" | "names">;

/** Names within names; those that go round in a circle end here. */
const DEEPEST = 16;

/** Returns the blocks that a formula reads, its names followed. What it makes references to while calculated is not among them. */
export function inputsOf(node: FormulaNode, book: WorkbookBook): readonly PlacedBlock[] {
  const blocks: PlacedBlock[] = [];
  const add = ({ references, names }: Referring, depth: number): void => {
    for (const { reference, lastSheet } of references) {
      const first = reference.sheet === null ? book.grids[node.sheet] : book.gridNamed(reference.sheet);
      if (first === undefined) continue;
      const grids =
        lastSheet === undefined ? [first] : (gridsBetween(book.grids, first, book.gridNamed(lastSheet)) ?? []);
      for (const grid of grids)
        blocks.push({ sheet: grid.index, block: rangeOn(grid, reference, node.row, node.column) });
    }
    if (depth >= DEEPEST) return;
    for (const name of names) {
      const compiled = nameOf(name, node, book);
      if (compiled !== undefined) add(compiled, depth + 1);
    }
  };
  add(node.prepared, 0);
  return blocks;
}

function nameOf(name: string, { sheet }: FormulaNode, book: WorkbookBook) {
  try {
    return book.nameOn(sheet, name);
  } catch (thrown) {
    if (thrown instanceof FormulaFault) return undefined; // The formula is refused for it when it is calculated.
    throw thrown;
  }
}
