import { Buffer } from "node:buffer";
import { crc32, deflateRawSync } from "node:zlib";

/** One entry of a zip file that may lie about itself. */
export interface ZipItem {
  readonly name: string;
  readonly content: Uint8Array | string;
  readonly method?: number;
  readonly flags?: number;
  /** What the headers say instead of the truth. */
  readonly declaredBytes?: number;
  readonly declaredCrc32?: number;
  readonly localName?: string;
  /** The data as it stands, already packed. */
  readonly packed?: Uint8Array;
  /** Points at the local header of an earlier entry, by its number, instead of having one. */
  readonly sharesDataOf?: number;
}

/** Builds a zip file byte by byte, apart from the code under test. */
export function buildZip(items: readonly ZipItem[]): Uint8Array {
  const pieces: Buffer[] = [];
  const records: Buffer[] = [];
  const offsets: number[] = [];
  let length = 0;
  for (const item of items) {
    const content = Buffer.from(item.content as string);
    const method = item.method ?? 8;
    const data = item.packed ?? (method === 0 ? content : deflateRawSync(content, { level: 1 }));
    const name = Buffer.from(item.name);
    const fields = Buffer.alloc(22);
    fields.writeUInt16LE(item.flags ?? 0, 2);
    fields.writeUInt16LE(method, 4);
    fields.writeUInt16LE(0x0021, 8);
    fields.writeUInt32LE(item.declaredCrc32 ?? crc32(content), 10);
    fields.writeUInt32LE(data.length, 14);
    fields.writeUInt32LE(item.declaredBytes ?? content.length, 18);
    fields.writeUInt16LE(20, 0);
    const offset = item.sharesDataOf === undefined ? length : (offsets[item.sharesDataOf] ?? 0);
    offsets.push(offset);
    if (item.sharesDataOf === undefined) {
      const localName = Buffer.from(item.localName ?? item.name);
      const lengths = Buffer.alloc(4);
      lengths.writeUInt16LE(localName.length, 0);
      const local = Buffer.concat([Buffer.from("PK\x03\x04", "latin1"), fields, lengths, localName, data]);
      pieces.push(local);
      length += local.length;
    }
    const rest = Buffer.alloc(18);
    rest.writeUInt16LE(name.length, 0);
    rest.writeUInt32LE(offset, 14);
    records.push(Buffer.concat([Buffer.from("PK\x01\x02\x14\x00", "latin1"), fields, rest, name]));
  }
  const directory = Buffer.concat(records);
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", "latin1");
  end.writeUInt16LE(items.length, 8);
  end.writeUInt16LE(items.length, 10);
  end.writeUInt32LE(directory.length, 12);
  end.writeUInt32LE(length, 16);
  return new Uint8Array(Buffer.concat([...pieces, directory, end]));
}
