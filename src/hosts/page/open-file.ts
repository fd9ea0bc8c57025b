import { requireFileSize } from "../../xlsx/index.js";
import { type ChosenFile, chooseFile } from "./file/file-system.js";
import { attempt, type PageContext, showFile } from "./page-context.js";
import { saveWorkbook } from "./save-file.js";

/**
 * Asks what becomes of changes that are in no file yet.
 *
 * @returns Whether to go on: they are saved, or are not wanted
 */
export async function mayReplace(context: PageContext): Promise<boolean> {
  const view = context.view();
  if (!view.isChanged()) return true;
  const answer = await context.messages.choose(`“${view.title()}” has changes that are in no file yet.`, [
    "Save first",
    "Go on without saving",
    "Cancel",
  ]);
  if (answer === "Save first") return saveWorkbook(context);
  return answer === "Go on without saving";
}

/** Opens a file that the person chose or dropped; the workbook in view stays when it cannot be opened. */
export async function openChosen(context: PageContext, { file, handle }: ChosenFile): Promise<void> {
  await attempt(context, `Reading ${file.name} …`, async () => {
    requireFileSize(file.size, file.name);
    const bytes = new Uint8Array(await file.arrayBuffer());
    const conversion = await context.run("read", bytes, file.name);
    if (!(await mayReplace(context))) return;
    await showFile(context, { name: file.name, bytes, handle }, conversion, false);
  });
}

/** Lets the person choose a file and opens it. */
export async function openByPicker(context: PageContext): Promise<void> {
  await attempt(context, "", async () => {
    const chosen = await chooseFile();
    if (chosen !== null) await openChosen(context, chosen);
  });
}
