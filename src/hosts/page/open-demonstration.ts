import { DEMONSTRATION_FILE, demonstrationPlan } from "../../workbook/index.js";
import { type PageContext, showFile } from "./page-context.js";
import { templateBytes } from "./template-bytes.js";

/** The sheet that shows what a workbook is about. */
const FIRST_SHEET = "Outlets";

/** Opens the demonstration, a filled workbook that is made from the templates, as any file is opened. */
export async function openDemonstration(context: PageContext, mayShow: () => Promise<boolean>): Promise<void> {
  const name = `${demonstrationPlan().title}.xlsx`;
  const bytes = await templateBytes(DEMONSTRATION_FILE);
  const conversion = await context.run("read", bytes, name);
  if (!(await mayShow())) return;
  const { sheets } = conversion.data as { readonly sheets: readonly { readonly id: string; readonly name: string }[] };
  const first = sheets.find((sheet) => sheet.name === FIRST_SHEET);
  const shown = first === undefined ? conversion : { ...conversion, activeSheetId: first.id };
  await showFile(context, { name, bytes, handle: null }, shown, false);
}
