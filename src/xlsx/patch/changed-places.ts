import { parseAddress } from "../address.js";
import type { FormulaPlace } from "../append/formula-places.js";
import type { WorkbookEdit } from "./edits.js";

/** Returns the cells into which edits put a value or a formula: what depends on them is to be calculated anew. */
export function changedPlaces(edits: readonly WorkbookEdit[]): readonly FormulaPlace[] {
  return edits.flatMap((edit) => {
    if (edit.kind !== "value" && edit.kind !== "formula") return [];
    const position = parseAddress(edit.address);
    return position === undefined ? [] : [{ sheet: edit.sheet, ...position }];
  });
}
