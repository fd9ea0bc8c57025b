import { Buffer } from "node:buffer";
import { inflateRawSync } from "node:zlib";

/** One entry of a zip file, as it lies there. */
export interface RawEntry {
  readonly name: string;
  /** Local header without its sizes' place in the file, name, extra field and compressed bytes. */
  readonly stored: Buffer;
  /** The directory's record without the offset. */
  readonly record: Buffer;
  readonly content: Buffer;
}

/** Reads a zip file's entries in directory order, apart from the code under test, with Node's own inflate. */
export function rawEntries(file: Uint8Array): readonly RawEntry[] {
  const bytes = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const end = bytes.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  const entries: RawEntry[] = [];
  let at = bytes.readUInt32LE(end + 16);
  for (let index = 0; index < bytes.readUInt16LE(end + 10); index += 1) {
    const nameBytes = bytes.readUInt16LE(at + 28);
    const length = 46 + nameBytes + bytes.readUInt16LE(at + 30) + bytes.readUInt16LE(at + 32);
    const record = Buffer.from(bytes.subarray(at, at + length));
    const local = record.readUInt32LE(42);
    const dataAt = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const data = bytes.subarray(dataAt, dataAt + record.readUInt32LE(20));
    entries.push({
      name: record.toString("utf8", 46, 46 + nameBytes),
      stored: bytes.subarray(local, dataAt + data.length),
      record: Buffer.concat([record.subarray(0, 42), record.subarray(46)]),
      // Unpacked when it is asked for: a part that nobody reads may be damaged.
      get content() {
        return record.readUInt16LE(10) === 0 ? data : inflateRawSync(data);
      },
    });
    at += length;
  }
  return entries;
}

/** Names of the entries of two files that differ in any byte: header, directory record or compressed content. */
export function changedEntries(before: Uint8Array, after: Uint8Array): readonly string[] {
  const old = new Map(rawEntries(before).map((entry) => [entry.name, entry]));
  const changed: string[] = [];
  for (const entry of rawEntries(after)) {
    const same = old.get(entry.name);
    if (same === undefined || !same.stored.equals(entry.stored) || !same.record.equals(entry.record)) {
      changed.push(entry.name);
    }
    old.delete(entry.name);
  }
  return [...changed, ...old.keys()];
}

/** Text of one entry. */
export function entryText(file: Uint8Array, name: string): string {
  const entry = rawEntries(file).find((one) => one.name === name);
  if (entry === undefined) throw new Error(`the file has no entry ${name}`);
  return entry.content.toString("utf8");
}
