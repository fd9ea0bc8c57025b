import { isMappingName, type SourceName } from "../../workbook/index.js";
import { runExcel } from "./run-excel.js";

/** Keeps what the columns of the workbook hold, as hidden names, in place of what it kept. */
export async function keepColumns(names: readonly SourceName[]): Promise<void> {
  await runExcel("What the columns hold could not be kept.", async (context) => {
    const { names: all, worksheets } = context.workbook;
    all.load("items/name");
    worksheets.load("items/name");
    await context.sync();
    for (const sheet of worksheets.items) sheet.names.load("items/name");
    await context.sync();
    // A copied sheet has names of its own.
    const known = [...all.items, ...worksheets.items.flatMap((sheet) => sheet.names.items)];
    for (const item of known) if (isMappingName(item.name)) item.delete();
    for (const { name, refersTo } of names) all.add(name, `=${refersTo}`).visible = false;
    await context.sync();
  });
}
