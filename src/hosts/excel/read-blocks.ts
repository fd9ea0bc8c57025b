import { type BlockAddress, type CellBlock, HostError } from "../../workbook/index.js";
import { placeIn, rangeOf } from "./addresses.js";
import { excelErrorCode } from "./after-cell-edit.js";
import { cellFormula, cellValue } from "./cell-contents.js";
import { asHostError, runExcel } from "./run-excel.js";

const FAILURE = "The sheet could not be read.";

/** Returns the sheets that are asked for and not there. */
async function missingSheets(
  context: Excel.RequestContext,
  asked: readonly BlockAddress[],
): Promise<readonly string[]> {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  const there = new Set(worksheets.items.map(({ name }) => name.toLowerCase()));
  return [...new Set(asked.map(({ sheet }) => sheet))].filter((sheet) => !there.has(sheet.toLowerCase()));
}

/** Says which sheet is not there, where that is why Excel could not find something. */
export async function explainMissing(
  context: Excel.RequestContext,
  asked: readonly BlockAddress[],
  failure: string,
  thrown: unknown,
): Promise<HostError> {
  if (!["ItemNotFound", "InvalidReference", "InvalidArgument"].includes(excelErrorCode(thrown) ?? "")) {
    return asHostError(failure, thrown);
  }
  const missing = await missingSheets(context, asked);
  if (missing.length === 0) return asHostError(failure, thrown);
  const names = missing.map((name) => `“${name}”`).join(", ");
  return new HostError(`${failure} There is no sheet ${names} in this workbook.`, { cause: thrown });
}

function block(address: BlockAddress, range: Excel.Range): CellBlock {
  return {
    address,
    values: range.values.map((cells, row) =>
      cells.map((value: unknown, column) =>
        cellValue(value, String(range.valueTypes[row]?.[column]), placeIn(address, row, column)),
      ),
    ),
    formulas: range.formulas.map((cells, row) =>
      cells.map((formula: unknown, column) => cellFormula(formula, range.values[row]?.[column])),
    ),
  };
}

/** Reads blocks in one batch, in the order asked. */
export async function readBlocks(addresses: readonly BlockAddress[]): Promise<readonly CellBlock[]> {
  if (addresses.length === 0) return [];
  for (const address of addresses) rangeOf(address);
  return runExcel(FAILURE, async (context) => {
    const ranges = addresses.map(({ sheet, range }) => {
      const found = context.workbook.worksheets.getItem(sheet).getRange(range);
      found.load("values,formulas,valueTypes");
      return found;
    });
    try {
      await context.sync();
    } catch (thrown) {
      throw await explainMissing(context, addresses, FAILURE, thrown);
    }
    return addresses.map((address, index) => block(address, ranges[index] as Excel.Range));
  });
}
