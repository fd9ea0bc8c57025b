import { WorkbookFileError } from "../../xlsx/index.js";
import { cellEdits } from "./file/cell-edits.js";
import { besideCells, type Changes, changesSince, withEntered } from "./file/changes-since.js";
import type { ExportedWorkbook } from "./file/engine-export.js";
import { chooseTarget, download, requireLeaveToWrite, writeTo } from "./file/file-system.js";
import { filtersOf } from "./file/filters-since.js";
import { bytesOnDisk, type PageFile } from "./file/page-file.js";
import { wholeFile } from "./file/whole-file.js";
import { attempt, type PageContext, withContents } from "./page-context.js";
import type { WorkbookView } from "./workbook-view.js";

/** What is to be written: the file's own bytes with the entries in them, or a new file made from the grid. */
interface Written {
  readonly bytes: Uint8Array;
  readonly kind: "patched" | "whole";
  readonly current: ExportedWorkbook;
  readonly keptCount: number;
  /** Cells that were entered since the file was read. */
  readonly entered: NonNullable<PageFile["entered"]>;
}

const IN_FULL = "Save as a new file";

function list(words: readonly string[]): string {
  return words.join("; ");
}

function plural(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** Writes the workbook in view as a new file made from the grid. */
export async function whole(context: PageContext, view: WorkbookView): Promise<Written> {
  const current = await view.exportedInSlices();
  const filters = current.sheets.flatMap(filtersOf).filter(({ choices }) => Object.keys(choices).length > 0);
  const grid = await wholeFile(view.model);
  const bytes = await context.run("finishWhole", grid, fileNameOf(view), current.namedRanges, filters);
  return { bytes, kind: "whole", current, keptCount: 0, entered: {} };
}

async function patched(
  context: PageContext,
  view: WorkbookView,
  file: PageFile,
  changes: Changes,
  current: ExportedWorkbook,
  handle: FileSystemFileHandle | null,
): Promise<Written> {
  // What is entered from here on is not in the file: it goes on counting as changed.
  const edits = cellEdits(view.model, changes.cells);
  if (handle !== null) await requireLeaveToWrite(handle);
  const { bytes, kept } = await context.run("patch", file.bytes, file.name, edits, besideCells(changes));
  const entered = withEntered(file.entered ?? {}, changes.cells);
  return { bytes, kind: "patched", current, keptCount: kept.length, entered };
}

/** Returns the name under which a workbook goes out, whatever it is called in the page. */
export function fileNameOf(view: WorkbookView): string {
  return view.file()?.name ?? `${view.title().replace(/[\\/:*?"<>|]/g, " ")}.xlsx`;
}

/**
 * Asks how to write what a file cannot take in; null when the person turns away.
 *
 * @param handle - The file that entries are to be saved into; null for a copy
 */
async function written(
  context: PageContext,
  view: WorkbookView,
  file: PageFile | null,
  handle: FileSystemFileHandle | null,
): Promise<Written | null> {
  if (file === null) return whole(context, view);
  const current = await view.exportedInSlices();
  const changes = changesSince(file.baseline, current, view.movedSheetIds, file.entered);
  if (changes.structure.length === 0 && changes.looks.length === 0)
    return patched(context, view, file, changes, current, handle);
  const leftOut = list(await context.run("partsLeftOut", file.bytes, file.name));
  const lost = `A new file holds every sheet as you see it, and leaves out: ${leftOut}.`;
  if (changes.structure.length > 0) {
    const answer = await context.messages.choose(
      `“${file.name}” cannot take these changes in, and stays as it is: ${list(changes.structure)}. ${lost}`,
      [IN_FULL, "Cancel"],
    );
    return answer === IN_FULL ? whole(context, view) : null;
  }
  const entries = "Save the entries alone";
  const answer = await context.messages.choose(
    `What was changed on this page beside entries stays out of “${file.name}”: ${list(changes.looks)}. ${lost}`,
    [entries, IN_FULL, "Cancel"],
  );
  if (answer === entries) return patched(context, view, file, changes, current, handle);
  return answer === IN_FULL ? whole(context, view) : null;
}

function tellSaved(context: PageContext, name: string, { kind, keptCount, current }: Written): void {
  const what = kind === "patched" ? "Everything else in the file is as it was." : "It is a new file.";
  const kept =
    keptCount === 0
      ? ""
      : ` ${plural(keptCount, "formula is", "formulas are")} not calculated here: your spreadsheet program calculates them when it opens the file.`;
  const isWhole = context.view().isAsIn(current);
  const later = isWhole ? "" : " What you entered while it was saved is not in it yet.";
  const sticky = keptCount > 0 || !isWhole;
  context.messages.notifyUser({ type: "success", sticky, text: `Saved ${name}. ${what}${kept}${later}` });
}

/** Lets the person choose where to write, with another click where the browser wants one; null when they turn away. */
function targetFor(context: PageContext, name: string): Promise<FileSystemFileHandle | "download" | null> {
  const goOn = "Choose where";
  return chooseTarget(name, async (text) => (await context.messages.choose(text, [goOn, "Cancel"])) === goOn);
}

/** Writes to a place that the person chooses; null when the person turns away. */
async function putBeside(
  context: PageContext,
  name: string,
  bytes: Uint8Array,
  file: PageFile,
): Promise<FileSystemFileHandle | "download" | null> {
  const target = await targetFor(context, name);
  if (target === "download") download(bytes, name);
  else if (target !== null) await writeBeside(target, bytes, "whole", file);
  return target;
}

/** Writes where the person wants it; returns the place, or null when the person turns away. */
async function put(
  context: PageContext,
  name: string,
  { bytes, kind }: Written,
  file: PageFile | null,
): Promise<FileSystemFileHandle | "download" | null> {
  if (kind === "patched" && file !== null && file.handle !== null) {
    try {
      await writeTo(file.handle, bytes, bytesOnDisk(file));
      return file.handle;
    } catch (cause) {
      if (!(cause instanceof WorkbookFileError) || cause.code !== "changed-on-disk") throw cause;
      const beside = "Save mine as another file";
      if ((await context.messages.choose(cause.message, [beside, "Cancel"])) !== beside) return null;
      return putBeside(
        context,
        name.replace(/(\.xls[xm])?$/i, (ending) => ` (mine)${ending}`),
        bytes,
        file,
      );
    }
  }
  const target = await targetFor(context, name);
  if (target === null) return null;
  if (target === "download") download(bytes, name);
  else await writeBeside(target, bytes, kind, file);
  return target;
}

/** The file that was opened is never replaced by one that leaves something of it out. */
async function writeBeside(
  target: FileSystemFileHandle,
  bytes: Uint8Array,
  kind: Written["kind"],
  file: PageFile | null,
): Promise<void> {
  const isOriginal = file !== null && file.handle !== null && (await target.isSameEntry(file.handle));
  if (isOriginal && kind === "whole") {
    throw new Error(`${target.name} was not saved: the new file would leave out parts of it. Give it another name.`);
  }
  await writeTo(target, bytes, isOriginal ? bytesOnDisk(file) : null);
}

export function newName(name: string): string {
  return name.replace(/(\.xls[xm])?$/i, " (new).xlsx");
}

/** Enters what is still in the editor of a cell; says so where that cannot be, since it would be missing in the file. */
function isEntered(context: PageContext): boolean {
  if (context.view().finishEntry()) return true;
  context.messages.notifyUser({
    type: "warning",
    sticky: false,
    text: "Nothing was saved: the entry in the cell is not taken. Change it, or press Escape to leave the cell as it was.",
  });
  return false;
}

/** Saves the workbook in view; returns whether it is in a file now. */
export async function saveWorkbook(context: PageContext): Promise<boolean> {
  if (!isEntered(context)) return false;
  let isSaved = false;
  const view = context.view();
  const file = view.file();
  await attempt(context, `Saving ${fileNameOf(view)} …`, async () => {
    const result = await written(context, view, file, file?.handle ?? null);
    if (result === null) return;
    const name = result.kind === "whole" && file !== null ? newName(file.name) : fileNameOf(view);
    const target = await put(context, name, result, file);
    if (target === null) return;
    const handle = target === "download" ? null : target;
    const savedName = handle?.name ?? name;
    const isWhole = result.kind === "whole" || file === null;
    if (isWhole) view.dropDrawings();
    await view.setFile(
      {
        name: savedName,
        bytes: result.bytes,
        handle,
        baseline: isWhole ? result.current : withContents(file.baseline, result.current),
        kept: isWhole ? [] : file.kept,
        words: file?.words ?? {},
        entered: result.entered,
      },
      !view.isAsIn(result.current),
    );
    tellSaved(context, savedName, result);
    isSaved = true;
  });
  return isSaved;
}

/** Saves the workbook in view under another name, and goes on with the one that is open. */
export async function saveCopy(context: PageContext): Promise<void> {
  if (!isEntered(context)) return;
  const view = context.view();
  const file = view.file();
  await attempt(context, "Saving a copy …", async () => {
    const result = await written(context, view, file, null);
    if (result === null) return;
    const name = fileNameOf(view).replace(/(\.xls[xm])?$/i, (ending) => ` (copy)${ending === "" ? ".xlsx" : ending}`);
    const target = await targetFor(context, name);
    if (target === null) return;
    if (target === "download") download(result.bytes, name);
    else await writeBeside(target, result.bytes, result.kind, file);
    tellSaved(context, target === "download" ? name : target.name, result);
  });
}

/** Hands the workbook in view over as a copy that calculates without the add-in. */
export async function handOff(context: PageContext): Promise<void> {
  if (!isEntered(context)) return;
  const view = context.view();
  const file = view.file();
  await attempt(context, "Making the hand-off copy …", async () => {
    const result = await written(context, view, file, null);
    if (result === null) return;
    const name = fileNameOf(view).replace(/(\.xls[xm])?$/i, " (hand-off).xlsx");
    const { bytes, plainCount, valueCount } = await context.run("handOff", result.bytes, name);
    const target = await targetFor(context, name);
    if (target === null) return;
    if (target === "download") download(bytes, name);
    else await writeBeside(target, bytes, "whole", file);
    const values = valueCount === 0 ? "" : ` ${plural(valueCount, "result stays a value", "results stay values")}.`;
    context.messages.notifyUser({
      type: "success",
      sticky: false,
      text: `Saved ${target === "download" ? name : target.name}. ${plural(plainCount, "call is", "calls are")} plain formulas now.${values} Its last sheet lists them.`,
    });
  });
}
