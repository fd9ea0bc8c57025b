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
    // A copied sheet has names of its own. Each goes by its name: an item that was loaded goes by its place in the list,
    // which moves as soon as one before it is deleted.
    for (const list of [all, ...worksheets.items.map((sheet) => sheet.names)]) {
      for (const { name } of list.items) if (isMappingName(name)) list.getItem(name).delete();
    }
    for (const { name, refersTo } of names) all.add(name, `=${refersTo}`).visible = false;
    await context.sync();
  });
}
