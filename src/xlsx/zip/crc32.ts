/** The reversed polynomial of CRC-32 as zip uses it (APPNOTE.TXT, section 4.4.7). */
const POLYNOMIAL = 0xedb88320;

/** Four tables, so that the loop takes four bytes at a time. */
const TABLES = makeTables();

function makeTables(): readonly Int32Array[] {
  const first = new Int32Array(256);
  for (let byte = 0; byte < 256; byte += 1) {
    let value = byte;
    for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? POLYNOMIAL ^ (value >>> 1) : value >>> 1;
    first[byte] = value;
  }
  const tables = [first];
  for (let index = 1; index < 4; index += 1) {
    const previous = tables[index - 1] as Int32Array;
    tables.push(previous.map((value) => (first[value & 255] as number) ^ (value >>> 8)));
  }
  return tables;
}

/**
 * Returns the CRC-32 of some bytes, as an unsigned number.
 *
 * @param before - Of the bytes before them; 0 where they are the first
 */
export function crc32(bytes: Uint8Array, before = 0): number {
  const [t0, t1, t2, t3] = TABLES as [Int32Array, Int32Array, Int32Array, Int32Array];
  let crc = ~before;
  let at = 0;
  for (const end = bytes.length - 3; at < end; at += 4) {
    crc ^=
      (bytes[at] as number) |
      ((bytes[at + 1] as number) << 8) |
      ((bytes[at + 2] as number) << 16) |
      ((bytes[at + 3] as number) << 24);
    crc =
      (t3[crc & 255] as number) ^
      (t2[(crc >>> 8) & 255] as number) ^
      (t1[(crc >>> 16) & 255] as number) ^
      (t0[crc >>> 24] as number);
  }
  for (; at < bytes.length; at += 1) crc = (t0[(crc ^ (bytes[at] as number)) & 255] as number) ^ (crc >>> 8);
  return ~crc >>> 0;
}
