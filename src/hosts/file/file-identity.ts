import { createHash } from "node:crypto";
import type { Stats } from "node:fs";
import { stat } from "node:fs/promises";

/** What tells whether a file is still the one that was opened. */
export interface FileIdentity {
  readonly bytes: number;
  readonly modifiedMs: number;
  readonly inode: number;
  readonly sha256: string;
}

/** Describes a file by its content and what the file system says of it. */
export function identityOf(content: Uint8Array, stats: Stats): FileIdentity {
  const sha256 = createHash("sha256").update(content).digest("hex");
  return { bytes: content.length, modifiedMs: stats.mtimeMs, inode: stats.ino, sha256 };
}

/** Whether the file system still shows the same file; says nothing of the content. */
export async function looksUnchanged(path: string, identity: FileIdentity): Promise<boolean> {
  const stats = await stat(path);
  return stats.size === identity.bytes && stats.mtimeMs === identity.modifiedMs && stats.ino === identity.inode;
}
