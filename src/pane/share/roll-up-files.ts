import { type JobFigures, jobFigures, openJob, type RollUpIssue, readOutlets } from "../../workbook/rollup/index.js";

/** A file as the browser hands it over. */
export interface ChosenFile {
  readonly name: string;
  readonly lastModified: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** What one workbook gave. */
export interface ReadFile {
  readonly figures: readonly JobFigures[];
  readonly issues: readonly RollUpIssue[];
}

/** A digest of bytes, by which a copied file is known; "" where the browser makes none. */
async function contentHash(bytes: Uint8Array): Promise<string> {
  const { subtle } = globalThis.crypto;
  if (subtle === undefined) return "";
  const digest = await subtle.digest("SHA-256", bytes as BufferSource);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function unread(file: string, cause: unknown): RollUpIssue {
  const reason = cause instanceof Error ? cause.message : String(cause);
  const message = `It could not be read (${reason}). Look whether it was moved or deleted, and choose it again.`;
  return { code: "not-opened", leftOut: "file", file, place: "", message };
}

/** Reads one job's workbook; one that cannot be read is a finding and never stops the others. */
export async function readJobFile(chosen: ChosenFile): Promise<ReadFile> {
  const { name: file, lastModified } = chosen;
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await chosen.arrayBuffer());
  } catch (cause) {
    return { figures: [], issues: [unread(file, cause)] };
  }
  const opened = openJob(bytes, file);
  if (opened.value === null) return { figures: [], issues: opened.issues };
  const { value: outlets, issues } = readOutlets(opened.value, new Map());
  if (outlets.length === 0) return { figures: [], issues: [...opened.issues, ...issues] };
  const about = { file, modifiedMs: lastModified, contentHash: await contentHash(bytes) };
  return { figures: jobFigures(about, outlets), issues: [...opened.issues, ...issues] };
}
