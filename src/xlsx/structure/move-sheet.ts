import type { PatchOptions } from "../patch/patch-workbook.js";
import type { Workbook } from "../workbook.js";
import { withParts } from "./restructure.js";
import { acrossSheets, cellsOfHolders, edits, requireSheet, whereOf } from "./sheets-common.js";
import { type Restructured, refused } from "./structure-context.js";
import { sheetListAfter } from "./workbook-part.js";

/**
 * Moves a sheet to another place among the sheets.
 *
 * @param workbook - As opened; it stays as it is
 * @param move - `to` counts from 1: the place that the sheet has afterwards
 * @throws {WorkbookFileError} Where there is no such place, or the structure is protected
 */
export function moveSheet(
  workbook: Workbook,
  { sheet, to }: { readonly sheet: string; readonly to: number },
  options: PatchOptions = {},
): Restructured {
  const { entry, index } = requireSheet(workbook, sheet);
  const count = workbook.sheets.length;
  if (!Number.isInteger(to) || to < 1 || to > count) {
    throw refused(workbook, `sheet “${entry.name}”`, `cannot be moved to place ${to}`, `The places are 1 to ${count}.`);
  }
  const order = workbook.sheets.map((_, place) => place).filter((place) => place !== index);
  order.splice(to - 1, 0, index);
  if (order.every((place, at) => place === at)) return { workbook, outdated: [], notices: [] };
  const list = sheetListAfter(workbook, { order, names: new Map(), refersTo: ({ refersTo }) => refersTo });
  const across = acrossSheets(
    workbook,
    order.map((place) => workbook.sheets[place]?.name ?? ""),
  );
  const notice = `These formulas go through several sheets, which are others now: ${across.map(whereOf).join(", ")}.`;
  return {
    workbook: withParts(workbook, edits([[workbook.workbookPart, list]]), options),
    outdated: cellsOfHolders(across),
    notices: across.length === 0 ? [] : [notice],
  };
}
