const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/**
 * Reads the size from a PNG file's header.
 *
 * @throws {Error} When the bytes are not a PNG file
 * @source W3C, PNG Specification (Third Edition), §5.2 signature, §11.2.1 IHDR (from memory, unverified)
 */
export function pngSize(bytes: Uint8Array): { readonly widthPx: number; readonly heightPx: number } {
  if (bytes.length < 24 || SIGNATURE.some((byte, index) => bytes[index] !== byte)) throw new Error("not a PNG file");
  const header = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return { widthPx: header.getUint32(16), heightPx: header.getUint32(20) };
}
