import type { Model } from "@odoo/o-spreadsheet";
import { HostError, isMappingName, type SourceName } from "../../workbook/index.js";
import { parseRange } from "../../xlsx/address.js";

/** Keeps what the columns of the workbook hold, as names, in place of what it kept; all of it or nothing. */
export function keepColumns(
  { getters, dispatch }: Pick<Model, "getters" | "dispatch">,
  names: readonly SourceName[],
): void {
  const planned = names.map(({ name, refersTo }) => {
    const end = refersTo.lastIndexOf("!");
    const sheet = refersTo
      .slice(0, end)
      .replace(/^'(.*)'$/, "$1")
      .replaceAll("''", "'");
    const sheetId = getters.getSheetIdByName(sheet);
    if (sheetId === undefined) throw new HostError(`Nothing was kept. There is no sheet “${sheet}”. Look at it again.`);
    const cells = parseRange(refersTo.slice(end + 1).replaceAll("$", ""));
    if (cells === undefined) throw new HostError(`Nothing was kept. ${refersTo} is not a block of cells.`);
    const { firstRow, firstColumn, lastRow, lastColumn } = cells;
    const zone = { top: firstRow - 1, left: firstColumn - 1, bottom: lastRow - 1, right: lastColumn - 1 };
    return { name, range: getters.getRangeDataFromZone(sheetId, zone) };
  });
  for (const { name } of getters.getNamedRanges()) {
    if (isMappingName(name)) dispatch("DELETE_NAMED_RANGE", { name });
  }
  for (const { name, range } of planned) dispatch("CREATE_NAMED_RANGE", { name, ranges: [range] });
}
