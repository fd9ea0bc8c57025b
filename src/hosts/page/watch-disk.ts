import { isOnDisk } from "./file/file-system.js";
import { bytesOnDisk } from "./file/page-file.js";
import type { PageContext } from "./page-context.js";

/** Looks at the file on disk whenever the person comes back to the page, and says once that somebody else changed it. */
export function watchDisk(context: PageContext): void {
  const told = new WeakSet<Uint8Array>();
  const look = async (): Promise<void> => {
    const file = context.view().file();
    if (file === null || file.handle === null || told.has(file.bytes)) return;
    if ((await isOnDisk(file.handle, bytesOnDisk(file))) !== false) return;
    told.add(file.bytes);
    context.messages.notifyUser({
      type: "warning",
      sticky: true,
      text: `${file.name} has changed on disk since it was opened. Nothing is overwritten: Save asks for another file for yours, and Open shows the one on disk.`,
    });
  };
  window.addEventListener("focus", () => void look());
}
