import { HostError, type WorkbookBytes } from "../../workbook/index.js";

const FAILURE = "The workbook could not be read as a file.";

/** As much as Excel is asked for at once; it allows 4 MiB at most. */
const SLICE_BYTES = 262_144;

function failed(error: Office.Error | undefined): HostError {
  return new HostError(`${FAILURE} Excel says: ${error?.message ?? "nothing"}`, { cause: error });
}

function openFile(): Promise<Office.File> {
  return new Promise((resolve, reject) => {
    Office.context.document.getFileAsync(Office.FileType.Compressed, { sliceSize: SLICE_BYTES }, (result) => {
      if (result.status === Office.AsyncResultStatus.Succeeded) resolve(result.value);
      else reject(failed(result.error));
    });
  });
}

function slice(file: Office.File, index: number): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    file.getSliceAsync(index, (result) => {
      if (result.status === Office.AsyncResultStatus.Succeeded) resolve(new Uint8Array(result.value.data));
      else reject(failed(result.error));
    });
  });
}

/** Excel keeps two files open at most, and a file that stays open keeps the next one from being read. */
function close(file: Office.File): Promise<void> {
  return new Promise((resolve) => file.closeAsync(() => resolve()));
}

/** The file's name as far as Excel tells it: a workbook that was never saved has none. */
function fileName(): string {
  const place = Office.context.document.url ?? "";
  const last = place.split(/[\\/]/).at(-1)?.split("?")[0] ?? "";
  return /\.xls[xm]$/i.test(last) ? last : "Workbook.xlsx";
}

/**
 * Returns the whole workbook as a file, as it now stands, saved or not.
 *
 * @throws {HostError} When Excel does not hand it over
 */
export async function workbookBytes(): Promise<WorkbookBytes> {
  const file = await openFile();
  try {
    const bytes = new Uint8Array(file.size);
    let filled = 0;
    for (let index = 0; index < file.sliceCount; index += 1) {
      const part = await slice(file, index);
      if (filled + part.length > bytes.length) throw new HostError(`${FAILURE} It changed meanwhile. Try again.`);
      bytes.set(part, filled);
      filled += part.length;
    }
    if (filled !== bytes.length) throw new HostError(`${FAILURE} A part of it is missing. Try again.`);
    return { bytes, name: fileName() };
  } finally {
    await close(file);
  }
}
