import type { BlockAddress } from "../../workbook/index.js";
import { rangeOf, splitAddress } from "./addresses.js";
import { excelErrorCode } from "./after-cell-edit.js";
import { explainMissing } from "./read-blocks.js";
import { runExcel } from "./run-excel.js";

/** Shows a block: its sheet comes to the front and its cells are selected. */
export async function selectBlock(address: BlockAddress): Promise<void> {
  const failure = `${address.sheet}!${address.range} could not be shown.`;
  rangeOf(address);
  await runExcel(failure, async (context) => {
    const sheet = context.workbook.worksheets.getItem(address.sheet);
    sheet.activate();
    sheet.getRange(address.range).select();
    try {
      await context.sync();
    } catch (thrown) {
      throw await explainMissing(context, [address], failure, thrown);
    }
  });
}

/** Returns the selected block; null where a chart, a picture or several blocks are selected. */
export async function selectedBlock(): Promise<BlockAddress | null> {
  return runExcel("The selection could not be read.", async (context) => {
    const range = context.workbook.getSelectedRange();
    range.load("address");
    try {
      await context.sync();
    } catch (thrown) {
      if (excelErrorCode(thrown) === "InvalidSelection") return null;
      throw thrown;
    }
    return splitAddress(range.address);
  });
}
