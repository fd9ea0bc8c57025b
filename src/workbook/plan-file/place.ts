import { parseAddress } from "../../xlsx/index.js";

/** Returns a cell's place counted from 0, as the writer and the engine count. */
export function place(at: string): { readonly row: number; readonly col: number } {
  const position = parseAddress(at);
  if (position === undefined) throw new Error(`${at} is not a cell.`);
  return { row: position.row - 1, col: position.column - 1 };
}
