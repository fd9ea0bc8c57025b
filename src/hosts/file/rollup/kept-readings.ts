import { Buffer } from "node:buffer";
import { createReadStream } from "node:fs";
import { type FileHandle, mkdir, open, truncate } from "node:fs/promises";
import { dirname } from "node:path";
import type { Finding } from "../../../workbook/finding.js";
import { HostError } from "../../../workbook/host.js";
import {
  type JobFigures,
  type OutletRecord,
  type PackedOutlets,
  packOutlets,
  unpackOutlets,
} from "../../../workbook/rollup/index.js";
import { joinedBytes } from "../../../xlsx/index.js";
import { removeAbandoned } from "../temporary-file.js";
import { fillFileWhole } from "../write-file-whole.js";
import { contentOfLine, keptLine, LINE_END, linesOf } from "./kept-lines.js";

/** What reading one workbook gave, its outlets apart. */
export interface KeptReading {
  readonly path: string;
  readonly bytes: number;
  readonly modifiedMs: number;
  /** "" where the file could not be read. */
  readonly sha256: string;
  readonly figures: readonly JobFigures[];
  readonly findings: readonly Finding[];
}

/** What was read in earlier runs, and what this one reads, in a file that only ever grows until it is swept. */
export interface KeptReadings {
  readonly get: (path: string) => KeptReading | undefined;
  /** Adds a reading as `spelledReading` spells it; as soon as this is done a run that is cut off can be resumed. */
  readonly add: (spelled: Uint8Array) => Promise<void>;
  /** Notes that a file is still the same though it was saved again. */
  readonly touch: (path: string, modifiedMs: number) => Promise<void>;
  readonly outlets: (path: string) => Promise<readonly OutletRecord[]>;
  /** Sweeps out what is out of date, when that is more than half, and closes the file. */
  readonly close: (paths: ReadonlySet<string>) => Promise<void>;
}

const PERMISSION_BITS = 0o7777;

interface Place {
  readonly start: number;
  readonly length: number;
}

interface Known {
  readonly reading: KeptReading;
  /** Both lines of the reading. */
  readonly place: Place;
  readonly rowsLength: number;
}

type Line =
  | { readonly kind: "head"; readonly version: string }
  | { readonly kind: "rows"; readonly rows: PackedOutlets }
  | { readonly kind: "file"; readonly rowsLength: number; readonly reading: KeptReading }
  | { readonly kind: "touch"; readonly path: string; readonly modifiedMs: number };

/** Lines of outlets are long and wanted by few: they begin so and are not parsed while the file is looked through. */
const ROWS_START = '{"kind":"rows"';

/** Spells a reading with its outlets, as it is kept. */
export function spelledReading(reading: KeptReading, outlets: readonly OutletRecord[]): Uint8Array {
  const rows = keptLine({ kind: "rows", rows: packOutlets(outlets) } satisfies Line);
  // In memory of their own, which may move to another thread: Node keeps short buffers in one block.
  return joinedBytes([rows, keptLine({ kind: "file", rowsLength: rows.length, reading } satisfies Line)]);
}

/** The reading that is spelled, without its outlets. */
export function readingOf(spelled: Uint8Array): KeptReading {
  const content = contentOfLine(spelled.subarray(spelled.indexOf(LINE_END) + 1, -1));
  const line = JSON.parse(content?.toString() ?? "null") as Line | null;
  if (line?.kind !== "file") throw new Error("A reading is not spelled as it is kept.");
  return line.reading;
}

/**
 * Opens what was kept of earlier runs; what is torn, or was written by another version, is left out.
 *
 * @param path - The file; it is made where it is not there
 * @param version - Of everything that bears on a reading
 * @param isFresh - Whether to forget what was kept
 */
export async function openKeptReadings(path: string, version: string, isFresh: boolean): Promise<KeptReadings> {
  await mkdir(dirname(path), { recursive: true });
  await removeAbandoned(dirname(path));
  const known = new Map<string, Known>();
  const file = await open(path, "a+");
  let size = isFresh ? 0 : await lookThrough(path, version, known);
  // What stands behind the last whole line was torn.
  await truncate(path, size);

  let writing: Promise<void> = Promise.resolve();
  /** Writes at the end, one after the other; returns where that is. */
  async function append(bytes: Uint8Array): Promise<number> {
    const start = size;
    size += bytes.length;
    writing = writing.then(() => file.appendFile(bytes));
    await writing;
    return start;
  }

  if (size === 0) await append(keptLine({ kind: "head", version } satisfies Line));

  return {
    get: (wanted) => known.get(wanted)?.reading,
    async add(spelled) {
      const reading = readingOf(spelled);
      const rowsLength = spelled.indexOf(LINE_END) + 1;
      const start = await append(spelled);
      known.set(reading.path, { reading, place: { start, length: spelled.length }, rowsLength });
    },
    async touch(wanted, modifiedMs) {
      const before = known.get(wanted);
      if (before === undefined) throw new Error(`Nothing is kept of ${wanted}.`);
      known.set(wanted, { ...before, reading: touched(before.reading, modifiedMs) });
      await append(keptLine({ kind: "touch", path: wanted, modifiedMs } satisfies Line));
    },
    async outlets(wanted) {
      const found = known.get(wanted);
      if (found === undefined) return [];
      const line = await readAt(file, found.place.start, found.rowsLength - 1);
      const content = contentOfLine(line);
      if (content === undefined) {
        throw new HostError(
          `${path} was changed while it was used. Run one roll-up at a time, then run this one again.`,
        );
      }
      const parsed = JSON.parse(content.toString()) as Extract<Line, { kind: "rows" }>;
      return unpackOutlets(parsed.rows);
    },
    async close(paths) {
      const wanted = [...known.values()].filter(({ reading }) => paths.has(reading.path));
      const wantedLength = wanted.reduce((sum, { place }) => sum + place.length, 0);
      // What cannot be swept out now is as good as it was, and a later run tries again.
      if (wantedLength * 2 < size) await sweep(path, file, version, wanted).catch(() => undefined);
      await file.close();
    },
  };
}

function touched(reading: KeptReading, modifiedMs: number): KeptReading {
  return { ...reading, modifiedMs, figures: reading.figures.map((job) => ({ ...job, modifiedMs })) };
}

/** Fills `known` and returns where the last whole line ends; 0 when another version wrote the file. */
async function lookThrough(path: string, version: string, known: Map<string, Known>): Promise<number> {
  let size = 0;
  let rows: { readonly start: number; readonly end: number } | undefined;
  for await (const { line, start, end } of linesOf(createReadStream(path, { highWaterMark: 2 ** 20 }))) {
    const content = contentOfLine(line);
    const isRows = content?.toString("latin1", 0, ROWS_START.length) === ROWS_START;
    const parsed = content === undefined || isRows ? undefined : (JSON.parse(content.toString()) as Line);
    if (start === 0 && !(parsed?.kind === "head" && parsed.version === version)) return 0;
    if (parsed?.kind === "file" && rows?.end === start && rows.end - rows.start === parsed.rowsLength) {
      const place = { start: rows.start, length: end - rows.start };
      known.set(parsed.reading.path, { reading: parsed.reading, place, rowsLength: parsed.rowsLength });
    }
    if (parsed?.kind === "touch") {
      const before = known.get(parsed.path);
      if (before !== undefined)
        known.set(parsed.path, { ...before, reading: touched(before.reading, parsed.modifiedMs) });
    }
    rows = isRows ? { start, end } : undefined;
    size = end;
  }
  return size;
}

async function readAt(file: FileHandle, start: number, length: number): Promise<Buffer> {
  const bytes = Buffer.alloc(length);
  let filled = 0;
  while (filled < length) {
    const { bytesRead } = await file.read(bytes, filled, length - filled, start + filled);
    if (bytesRead === 0) break;
    filled += bytesRead;
  }
  return bytes;
}

/** Writes what is wanted to a new file, which takes the old one's place whole. */
async function sweep(path: string, from: FileHandle, version: string, wanted: readonly Known[]): Promise<void> {
  const mode = (await from.stat()).mode & PERMISSION_BITS;
  await fillFileWhole(path, { mode, existing: "replace", beforeReplacing: async () => undefined }, async (to) => {
    await to.appendFile(keptLine({ kind: "head", version } satisfies Line));
    for (const { place, reading, rowsLength } of wanted) {
      await to.appendFile(await readAt(from, place.start, rowsLength));
      await to.appendFile(keptLine({ kind: "file", rowsLength, reading } satisfies Line));
    }
  });
}
