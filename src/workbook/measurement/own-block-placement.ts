import { formatAddress, formatRange } from "../../xlsx/address.js";
import type { BlockEdit, CellBlock, WorkbookHost } from "../host.js";
import { ownBlock } from "./own-block.js";
import type { Placement, Refusal } from "./placement.js";
import type { EmptyPlace } from "./sheet-place.js";
import type { TakenMeasurement } from "./taken.js";

function firstInUse(block: CellBlock, { row, column }: EmptyPlace): string | null {
  for (const [rowIndex, values] of block.values.entries()) {
    const columnIndex = values.findIndex(
      (value, index) => value !== null || block.formulas[rowIndex]?.[index] !== null,
    );
    if (columnIndex >= 0) return formatAddress(row + rowIndex, column + columnIndex);
  }
  return null;
}

/** Plans a measurement into a block of its own; never over a cell that holds anything. */
export async function ownBlockPlacement(
  host: WorkbookHost,
  place: EmptyPlace,
  taken: TakenMeasurement,
): Promise<Placement | Refusal> {
  const { cells, resultAt } = ownBlock(taken, place);
  const { sheet, row, column } = place;
  const range = formatRange({
    firstRow: row,
    firstColumn: column,
    lastRow: row + cells.length - 1,
    lastColumn: column + (cells[0]?.length ?? 1) - 1,
  });
  const [block] = await host.read([{ sheet, range }]);
  const inUse = block === undefined ? null : firstInUse(block, place);
  if (inUse !== null) {
    return {
      refusal: `The measurement needs ${range} on sheet “${sheet}”, and ${inUse} is in use. Select a cell with room below and to the right.`,
    };
  }
  const edits: BlockEdit[] = [{ address: { sheet, range }, cells }];
  return {
    where: `${range} on sheet “${sheet}”`,
    edits,
    replaces: [],
    resultAt: { sheet, range: resultAt },
    resultScale: 1,
  };
}
