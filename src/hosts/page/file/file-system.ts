import { WorkbookFileError } from "../../../xlsx/index.js";

const XLSX_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

/** Files to choose from; others stay choosable, and are told apart when they are read. */
const TYPES = [{ description: "Workbooks", accept: { [XLSX_TYPE]: [".xlsx", ".xlsm"] as const } }];

/** A file that the person chose or dropped, and how to write to it where the browser allows that. */
export interface ChosenFile {
  readonly file: File;
  readonly handle: FileSystemFileHandle | null;
}

function isCancel(cause: unknown): boolean {
  return cause instanceof DOMException && cause.name === "AbortError";
}

/** Lets the person choose a workbook; null when they do not. */
export async function chooseFile(): Promise<ChosenFile | null> {
  if (window.showOpenFilePicker === undefined) return chooseByInput();
  try {
    const [handle] = await window.showOpenFilePicker({ types: TYPES });
    return handle === undefined ? null : { file: await handle.getFile(), handle };
  } catch (cause) {
    if (isCancel(cause)) return null;
    throw cause;
  }
}

function chooseByInput(): Promise<ChosenFile | null> {
  const input = document.createElement("input");
  input.type = "file";
  input.accept = `.xlsx,.xlsm,${XLSX_TYPE}`;
  return new Promise((resolve) => {
    input.addEventListener("change", () => {
      const file = input.files?.[0];
      resolve(file === undefined ? null : { file, handle: null });
    });
    input.addEventListener("cancel", () => resolve(null));
    input.click();
  });
}

/** Asks for another click, and says whether it came. */
export type AskForClick = (text: string) => Promise<boolean>;

/** The browser asks for a place or a permission only within a few seconds of a click; a large file takes longer. */
function isTooLongSinceClick(cause: unknown): boolean {
  return cause instanceof DOMException && cause.name === "SecurityError";
}

/**
 * Lets the person choose where to write: a place, "download" where the browser offers none, null when they do not.
 *
 * @param askForClick - Called when the browser wants another click first
 */
export async function chooseTarget(
  suggestedName: string,
  askForClick: AskForClick,
): Promise<FileSystemFileHandle | "download" | null> {
  if (window.showSaveFilePicker === undefined) return "download";
  const options = { suggestedName, types: TYPES };
  try {
    return await window.showSaveFilePicker(options);
  } catch (cause) {
    if (isCancel(cause)) return null;
    if (!isTooLongSinceClick(cause)) throw cause;
    return (await askForClick(`“${suggestedName}” is ready.`)) ? chooseTarget(suggestedName, askForClick) : null;
  }
}

/**
 * Asks for leave to write to a file, while the click that asked for saving is fresh.
 *
 * @throws {WorkbookFileError} When it is not given
 */
export async function requireLeaveToWrite(handle: FileSystemFileHandle): Promise<void> {
  const leave = await handle.requestPermission?.({ mode: "readwrite" });
  if (leave === undefined || leave === "granted") return;
  const advice = "Allow it when the browser asks, or save a copy.";
  throw new WorkbookFileError("not-writable", handle.name, "was not saved: the browser was not allowed to", advice);
}

/** Hands bytes over as a download of that name. */
export function download(bytes: Uint8Array, name: string): void {
  const url = URL.createObjectURL(new Blob([bytes as BlobPart], { type: XLSX_TYPE }));
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  // The browser has taken the bytes long before.
  setTimeout(() => URL.revokeObjectURL(url), 60_000);
}

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}

/** Whether a file still holds these bytes; null where the browser does not let the page look. */
export async function isOnDisk(handle: FileSystemFileHandle, bytes: Uint8Array): Promise<boolean | null> {
  try {
    return isSame(new Uint8Array(await (await handle.getFile()).arrayBuffer()), bytes);
  } catch {
    // Leave to read may have ended; saving asks for it anew.
    return null;
  }
}

/**
 * Writes a workbook to a place that the person chose. The browser puts the new file in the old one's place in one step.
 *
 * @param expected - What the file must still hold; null where anything may be replaced
 * @throws {WorkbookFileError} When it is not written; the file is as it was
 */
export async function writeTo(
  handle: FileSystemFileHandle,
  bytes: Uint8Array,
  expected: Uint8Array | null,
): Promise<void> {
  const { name } = handle;
  try {
    if (expected !== null && !isSame(new Uint8Array(await (await handle.getFile()).arrayBuffer()), expected)) {
      const problem = "has changed on disk since it was opened, so it was not overwritten";
      throw new WorkbookFileError("changed-on-disk", name, problem, "Open it again, or save a copy.");
    }
    const stream = await handle.createWritable();
    await stream.write(bytes as BufferSource & Uint8Array<ArrayBuffer>);
    await stream.close();
  } catch (cause) {
    if (cause instanceof WorkbookFileError) throw cause;
    const reason = cause instanceof Error ? cause.message : String(cause);
    const problem = `could not be saved (${reason}); the file is as it was`;
    throw new WorkbookFileError("not-writable", name, problem, "Save a copy instead.", { cause });
  }
}
