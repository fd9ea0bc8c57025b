import type { WorkbookIdentity } from "../../workbook/index.js";
import { runExcel } from "./run-excel.js";

/** Under which name the workbook keeps its id among the settings of this add-in, in its own file. */
const SETTING = "vanesheet.workbook";

/** Says which workbook is open: by the id that it keeps in its settings, and by where it lies. */
export async function workbookIdentity(): Promise<WorkbookIdentity> {
  return runExcel("The workbook could not be told from others.", async (context) => {
    const setting = context.workbook.settings.getItemOrNullObject(SETTING);
    setting.load("value");
    await context.sync();
    const id: unknown = setting.isNullObject ? null : setting.value;
    return { id: typeof id === "string" && id !== "" ? id : null, place: Office.context.document.url ?? "" };
  });
}

/** Gives the workbook an id, which stays in its file once it is saved. */
export async function keepIdentity(id: string): Promise<void> {
  await runExcel("The workbook takes no id.", async (context) => {
    context.workbook.settings.add(SETTING, id);
    await context.sync();
  });
}
