import { wrongInput } from "./cell-error.js";
import { type CellResult, guard, guardCell } from "./guard.js";
import { asBlock } from "./read-range.js";

interface Shape {
  readonly rows: number;
  readonly columns: number;
}

function shapeOf(block: readonly (readonly unknown[])[]): Shape {
  return { rows: block.length, columns: block[0]?.length ?? 0 };
}

function fits(shape: Shape, whole: Shape): boolean {
  return (shape.rows === 1 || shape.rows === whole.rows) && (shape.columns === 1 || shape.columns === whole.columns);
}

/**
 * Calls a formula once for each row of its arguments' blocks.
 *
 * An argument of one cell serves every row; a row or a column serves the other direction. One cell in, one cell out,
 * and its error is thrown; a block in, a block out, and an error stays in its own cell.
 *
 * @param names - The arguments' names, for the message when their sizes differ
 * @param blocks - The arguments as the host hands them over
 * @param formula - Called with one value of each argument
 * @throws {CellError} `#VALUE!` when two blocks differ in size
 */
export function overBlocks(
  names: readonly string[],
  blocks: readonly unknown[],
  formula: (...values: unknown[]) => CellResult,
): CellResult[][] {
  return guard(() => {
    const all = blocks.map(asBlock);
    const shapes = all.map(shapeOf);
    const whole = {
      rows: Math.max(...shapes.map((shape) => shape.rows)),
      columns: Math.max(...shapes.map((shape) => shape.columns)),
    };
    shapes.forEach((shape, index) => {
      if (!fits(shape, whole)) {
        throw wrongInput(
          `${names[index]} has ${shape.rows} rows and ${shape.columns} columns where ${whole.rows} and ${whole.columns} are needed. Give every argument the same cells' height and width, or one cell.`,
        );
      }
    });
    const at = (row: number, column: number) =>
      all.map((block, index) => {
        const shape = shapes[index] as Shape;
        return block[shape.rows === 1 ? 0 : row]?.[shape.columns === 1 ? 0 : column];
      });
    if (whole.rows === 1 && whole.columns === 1) return [[formula(...at(0, 0))]];
    return Array.from({ length: whole.rows }, (_, row) =>
      Array.from({ length: whole.columns }, (__, column) => guardCell(() => formula(...at(row, column)))),
    );
  });
}
