import { type Finding, findingOf } from "../../workbook/finding.js";
import { type JobFigures, jobFigures, openJob, readOutlets } from "../../workbook/rollup/index.js";

/** A file as the browser hands it over. */
export interface ChosenFile {
  readonly name: string;
  readonly lastModified: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

/** What one workbook gave. */
export interface ReadFile {
  readonly figures: readonly JobFigures[];
  readonly findings: readonly Finding[];
}

/** A digest of bytes, by which a copied file is known; "" where the browser makes none. */
async function contentHash(bytes: Uint8Array): Promise<string> {
  const { subtle } = globalThis.crypto;
  if (subtle === undefined) return "";
  const digest = await subtle.digest("SHA-256", bytes as BufferSource);
  return [...new Uint8Array(digest)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

function unread(file: string, cause: unknown): Finding {
  const reason = cause instanceof Error ? cause.message : String(cause);
  const action = "Look whether it was moved or deleted, and choose it again.";
  return findingOf(file, "not-opened", "workbook", `It could not be read (${reason}).`, action);
}

/** Reads one job's workbook; one that cannot be read is a finding and never stops the others. */
export async function readJobFile(chosen: ChosenFile): Promise<ReadFile> {
  const { name: file, lastModified } = chosen;
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await chosen.arrayBuffer());
  } catch (cause) {
    return { figures: [], findings: [unread(file, cause)] };
  }
  const opened = openJob(bytes, file);
  if (opened.value === null) return { figures: [], findings: opened.findings };
  const { value: outlets, findings } = readOutlets(opened.value, new Map());
  if (outlets.length === 0) return { figures: [], findings: [...opened.findings, ...findings] };
  const about = { file, modifiedMs: lastModified, contentHash: await contentHash(bytes) };
  return { figures: jobFigures(about, outlets), findings: [...opened.findings, ...findings] };
}
