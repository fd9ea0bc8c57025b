import { requireFileSize } from "../../xlsx/index.js";
import { attempt, type Desk, showFile } from "./desk.js";
import { type ChosenFile, chooseFile } from "./file/file-system.js";
import { saveWorkbook } from "./save-file.js";

/**
 * Asks what becomes of changes that are in no file yet.
 *
 * @returns Whether to go on: they are saved, or are not wanted
 */
export async function mayReplace(desk: Desk): Promise<boolean> {
  const view = desk.view();
  if (!view.isChanged()) return true;
  const answer = await desk.messages.choose(`“${view.title()}” has changes that are in no file yet.`, [
    "Save first",
    "Go on without saving",
    "Cancel",
  ]);
  if (answer === "Save first") return saveWorkbook(desk);
  return answer === "Go on without saving";
}

/** Opens a file that the person chose or dropped; the workbook in view stays when it cannot be opened. */
export async function openChosen(desk: Desk, { file, handle }: ChosenFile): Promise<void> {
  await attempt(desk, `Reading ${file.name} …`, async () => {
    requireFileSize(file.size, file.name);
    const bytes = new Uint8Array(await file.arrayBuffer());
    const conversion = await desk.run("read", bytes, file.name);
    if (!(await mayReplace(desk))) return;
    await showFile(desk, { name: file.name, bytes, handle }, conversion, false);
  });
}

/** Lets the person choose a file and opens it. */
export async function openByPicker(desk: Desk): Promise<void> {
  await attempt(desk, "", async () => {
    const chosen = await chooseFile();
    if (chosen !== null) await openChosen(desk, chosen);
  });
}
