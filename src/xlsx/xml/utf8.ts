/* Browsers and Node have both of these; the types of the language alone do not tell of them. */
declare const TextDecoder: new () => { decode(bytes: Uint8Array): string };
declare const TextEncoder: new () => { encode(text: string): Uint8Array };

const decoder = new TextDecoder();
const encoder = new TextEncoder();

/** So many characters are made of bytes in one call, which takes them as its arguments. */
const PIECE = 16_384;

/** Returns the text that bytes spell in UTF-8, without a mark of their order at the start. */
export function utf8Text(bytes: Uint8Array): string {
  return decoder.decode(bytes);
}

/** Returns the bytes that spell a text in UTF-8. */
export function utf8Bytes(text: string): Uint8Array {
  return encoder.encode(text);
}

/** Returns a character for each byte: what is ASCII reads the same as in UTF-8. */
export function latin1Text(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += PIECE) {
    // Spread, they would be handed over one by one, which takes many times as long.
    text += String.fromCharCode.apply(null, bytes.subarray(at, at + PIECE) as unknown as number[]);
  }
  return text;
}
