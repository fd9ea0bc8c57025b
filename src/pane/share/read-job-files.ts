import { type ChosenFile, type ReadFile, readJobFile } from "./roll-up-files.js";

/** What came in of the files, in the order in which they were chosen. */
export interface CameIn {
  readonly name: string;
  readonly read: ReadFile;
}

/** The pane is drawn this often while files come in. */
const DRAWN_MS = 150;

/**
 * Reads files one after another, so that only one of them is in memory at a time, and lets the pane draw in between.
 *
 * @param onRead - Told what came in since it was last told
 * @param isStopped - Asked before each file
 */
export async function readJobFiles(
  files: readonly ChosenFile[],
  onRead: (cameIn: readonly CameIn[]) => void,
  isStopped: () => boolean,
): Promise<void> {
  let waiting: CameIn[] = [];
  let toldMs = performance.now();
  const tell = async () => {
    if (waiting.length > 0) onRead(waiting);
    waiting = [];
    toldMs = performance.now();
    await new Promise((resolve) => setTimeout(resolve, 0));
  };
  for (const file of files) {
    if (isStopped()) return;
    waiting.push({ name: file.name, read: await readJobFile(file) });
    if (performance.now() - toldMs >= DRAWN_MS) await tell();
  }
  await tell();
}
