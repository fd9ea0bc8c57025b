import { access } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/** Names of the lock files that spreadsheet programs write beside a workbook of this name. */
export function lockFileNames(name: string): readonly string[] {
  return [`~$${name}`, `.~lock.${name}#`];
}

/**
 * Returns the lock file that another program left beside a workbook while it has the workbook open, or undefined.
 */
export async function findLockFile(path: string): Promise<string | undefined> {
  const folder = dirname(path);
  for (const lockName of lockFileNames(basename(path))) {
    const lockPath = join(folder, lockName);
    const isThere = await access(lockPath).then(
      () => true,
      () => false,
    );
    if (isThere) return lockPath;
  }
  return undefined;
}
