import { bytesOnDisk } from "./file/page-file.js";
import type { PageContext } from "./page-context.js";

/** Remembers the workbook in view; returns how to go back to it. */
export async function rememberWorkbook(context: PageContext): Promise<() => Promise<void>> {
  const view = context.view();
  // What stands in the editor was typed before the change; where it is refused it stays there.
  view.finishEntry();
  const data = await view.exportedInSlices();
  const [file, wasChanged, identity] = [view.file(), view.isChanged(), view.identity()];
  const stored = {
    ...(identity === null ? {} : { identity }),
    title: view.title(),
    data,
    movedSheetIds: [...view.movedSheetIds],
    protectedSheetIds: [...view.protectedSheetIds],
    isChanged: wasChanged,
    activeSheetId: view.model.getters.getActiveSheetId(),
    file: null,
    drawings: view.drawings(),
  };
  return async () => {
    const now = context.view().file();
    const again = await context.show(stored, true);
    if (file === null) {
      await again.keepWhole();
      return;
    }
    // Where it was saved meanwhile, the disk holds what is taken back.
    const place = now ?? file;
    const onDisk = bytesOnDisk(place);
    const isSaved = onDisk !== bytesOnDisk(file);
    await again.setFile({ ...file, name: place.name, handle: place.handle, onDisk }, wasChanged || isSaved);
  };
}
