import { HostError } from "../../workbook/index.js";
import { rangeOf, splitAddress } from "./addresses.js";
import { runExcel } from "./run-excel.js";

const FAILURE = "The sheet was not set up for printing.";

/**
 * Sets the sheet in front up for printing: landscape, one page wide, its frozen rows or else its first row in use on
 * every page.
 *
 * @returns The sheet's name
 */
export async function setUpPrint(): Promise<string> {
  if (!Office.context.requirements.isSetSupported("ExcelApi", "1.9")) {
    throw new HostError(`${FAILURE} This Excel does not let an add-in do that. Use Page Layout in Excel's ribbon.`);
  }
  return runExcel(FAILURE, async (context) => {
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    const frozen = sheet.freezePanes.getLocationOrNullObject();
    const used = sheet.getUsedRangeOrNullObject(true);
    sheet.load("name");
    frozen.load("address");
    used.load("address");
    await context.sync();
    if (used.isNullObject) throw new HostError(`${FAILURE} “${sheet.name}” is empty.`);
    const { firstRow } = rangeOf(splitAddress(used.address));
    const rows = frozen.isNullObject ? null : rangeOf(splitAddress(frozen.address));
    const [from, to] = rows === null ? [firstRow, firstRow] : [rows.firstRow, rows.lastRow];
    const { pageLayout } = sheet;
    pageLayout.orientation = Excel.PageOrientation.landscape;
    pageLayout.zoom = { horizontalFitToPages: 1 };
    pageLayout.setPrintTitleRows(`$${from}:$${to}`);
    await context.sync();
    return sheet.name;
  });
}
