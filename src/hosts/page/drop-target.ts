import type { ChosenFile } from "./file/file-system.js";

function holdsFiles(event: DragEvent): boolean {
  return event.dataTransfer?.types.includes("Files") ?? false;
}

/** The handle by which the page may write, where the browser gives one. */
async function handleOf(item: DataTransferItem): Promise<FileSystemFileHandle | null> {
  const handle = await item.getAsFileSystemHandle?.();
  return handle?.kind === "file" ? (handle as FileSystemFileHandle) : null;
}

/**
 * Opens a file that is dropped anywhere on the page.
 *
 * @param area - Shown while a file is over the page
 * @param open - Opens the file
 * @param refuse - Says why nothing was opened
 */
export function openDropped(
  area: HTMLElement,
  open: (chosen: ChosenFile) => Promise<void>,
  refuse: (text: string) => void,
): void {
  const listen = (type: "dragenter" | "dragover" | "dragleave" | "drop", act: (event: DragEvent) => void): void => {
    // Before the grid, which has drops of its own.
    window.addEventListener(
      type,
      (event) => {
        if (!holdsFiles(event)) return;
        event.preventDefault();
        event.stopPropagation();
        act(event);
      },
      { capture: true },
    );
  };
  listen("dragenter", () => {
    area.hidden = false;
  });
  listen("dragover", () => {
    area.hidden = false;
  });
  listen("dragleave", (event) => {
    area.hidden = event.relatedTarget === null;
  });
  listen("drop", (event) => {
    area.hidden = true;
    const items = [...(event.dataTransfer?.items ?? [])].filter(({ kind }) => kind === "file");
    const [item] = items;
    const file = item?.getAsFile();
    if (items.length > 1) refuse("One workbook at a time: drop a single file.");
    else if (item === undefined || file === null || file === undefined) refuse("Drop a workbook file.");
    else void handleOf(item).then((handle) => open({ file, handle }));
  });
}
