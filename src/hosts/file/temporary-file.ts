import { createHash, randomBytes } from "node:crypto";
import { lstat, readdir, readFile, stat, unlink } from "node:fs/promises";
import { hostname } from "node:os";
import { basename, dirname, join } from "node:path";

/** After this long nobody is still writing, whatever machine began to. */
const ABANDONED_MS = 24 * 60 * 60 * 1000;
const RANDOM_BYTES = 6;

/**
 * `.vanesheet-1a2b3c4d-4711-a1b2c3d4e5f6.tmp`: the machine that writes it, the process, and a number of its own. The name
 * of the file is no part of it: a name may have 255 bytes, and what takes the place of such a file has to fit beside it.
 */
const NAME = /^\.vanesheet-([0-9a-f]{8})-(\d+)-[0-9a-f]{12}\.(tmp|claim)$/;

function machine(): string {
  return createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
}

/** Returns a name beside a file for what is to take its place; it says who writes it. */
export function temporaryNameFor(path: string): string {
  return nameBeside(path, "tmp");
}

/** Returns a name beside a file for the note that an empty file of its name is to be filled; it holds that name. */
export function claimNoteFor(path: string): string {
  return nameBeside(path, "claim");
}

function nameBeside(path: string, ending: "tmp" | "claim"): string {
  const own = randomBytes(RANDOM_BYTES).toString("hex");
  return join(dirname(path), `.vanesheet-${machine()}-${process.pid}-${own}.${ending}`);
}

function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (cause) {
    // A process of somebody else may not be asked, but it is there.
    return (cause as NodeJS.ErrnoException).code !== "ESRCH";
  }
}

async function isAbandoned(folder: string, name: string): Promise<boolean> {
  const [, writer, processId] = NAME.exec(name) ?? [];
  if (writer === undefined) return false;
  if (writer === machine() && !isRunning(Number(processId))) return true;
  const { mtimeMs } = await stat(join(folder, name));
  return Date.now() - mtimeMs > ABANDONED_MS;
}

/**
 * Removes what killed processes have left in a folder: temporary files of processes of this machine that no longer run,
 * and any that is older than a day. What cannot be removed stays; it does no harm.
 */
export async function removeAbandoned(folder: string): Promise<void> {
  const names = await readdir(folder).catch(() => []);
  for (const name of names) {
    // Another save in the same folder may remove it first.
    if (!(await isAbandoned(folder, name).catch(() => false))) continue;
    if (name.endsWith(".claim")) await removeClaimed(folder, name).catch(() => undefined);
    await unlink(join(folder, name)).catch(() => undefined);
  }
}

/** Removes the empty file that a note is about; one that was there before the note is somebody else's. */
async function removeClaimed(folder: string, note: string): Promise<void> {
  const claimed = join(folder, basename(await readFile(join(folder, note), "utf8")));
  const [stats, noted] = [await lstat(claimed), await stat(join(folder, note))];
  if (stats.isFile() && stats.size === 0 && stats.mtimeMs >= noted.mtimeMs) await unlink(claimed);
}
