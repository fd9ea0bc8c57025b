import { access } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Returns the lock file that another program left beside a workbook while it has the workbook open, or undefined.
 * Spreadsheet programs write `~$name.xlsx` or `.~lock.name.xlsx#`.
 */
export async function findLockFile(path: string): Promise<string | undefined> {
  const folder = dirname(path);
  const name = basename(path);
  for (const lockName of [`~$${name}`, `.~lock.${name}#`]) {
    const lockPath = join(folder, lockName);
    const isThere = await access(lockPath).then(
      () => true,
      () => false,
    );
    if (isThere) return lockPath;
  }
  return undefined;
}
