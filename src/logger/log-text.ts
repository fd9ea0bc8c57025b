import { assumed, type Finding, found, given, isOffered } from "./finding.js";

/** The decoder that browsers and Node share; whoever runs there hands it in. */
export type TextDecoderMaker = new (
  label: string,
  options: { readonly fatal: boolean },
) => { decode(bytes: Uint8Array): string };

const ENCODINGS = [
  { value: "utf-8", label: "UTF-8" },
  { value: "utf-16le", label: "UTF-16, little end first" },
  { value: "utf-16be", label: "UTF-16, big end first" },
  { value: "windows-1252", label: "Windows-1252, Western European" },
  { value: "windows-1250", label: "Windows-1250, Central European" },
  { value: "windows-1251", label: "Windows-1251, Cyrillic" },
  { value: "shift_jis", label: "Shift JIS, Japanese" },
  { value: "gb18030", label: "GB 18030, Chinese" },
] as const;

/** So many bytes tell whether every second one is zero, as in UTF-16 of plain letters. */
const LOOKED_AT = 4096;

function zeroShare(bytes: Uint8Array, odd: 0 | 1): number {
  const looked = Math.min(bytes.length, LOOKED_AT);
  let zeros = 0;
  for (let index = odd; index < looked; index += 2) if (bytes[index] === 0) zeros += 1;
  return looked === 0 ? 0 : zeros / (looked / 2);
}

function isUtf8(bytes: Uint8Array, Decoder: TextDecoderMaker): boolean {
  try {
    new Decoder("utf-8", { fatal: true }).decode(bytes);
    return true;
  } catch (thrown) {
    // The standard names this error for bytes that are none of the encoding.
    if (thrown instanceof TypeError) return false;
    throw thrown;
  }
}

function encodingOf(bytes: Uint8Array, Decoder: TextDecoderMaker): Finding {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf)
    return found("utf-8", "The file begins with its mark.", ENCODINGS);
  if (first === 0xff && second === 0xfe) return found("utf-16le", "The file begins with its mark.", ENCODINGS);
  if (first === 0xfe && second === 0xff) return found("utf-16be", "The file begins with its mark.", ENCODINGS);
  if (zeroShare(bytes, 1) > 0.5) return found("utf-16le", "Every second byte is zero.", ENCODINGS);
  if (zeroShare(bytes, 0) > 0.5) return found("utf-16be", "Every second byte is zero.", ENCODINGS);
  if (isUtf8(bytes, Decoder)) return found("utf-8", "All of the file is valid UTF-8.", ENCODINGS);
  return assumed(
    "windows-1252",
    "The file is no UTF-8. Look whether the column names read right; numbers are the same either way.",
    ENCODINGS,
  );
}

/** A log's text and how its bytes were read. */
export interface LogText {
  readonly text: string;
  readonly encoding: Finding;
}

/**
 * Turns the bytes of a log into text: by the mark at its beginning, by being valid UTF-8, else as Windows-1252.
 *
 * @param content - Bytes, or text that somebody has decoded already
 * @param chosen - What a person says the encoding is
 * @param Decoder - TextDecoder
 */
export function logText(content: string | Uint8Array, chosen: string | undefined, Decoder: TextDecoderMaker): LogText {
  if (typeof content === "string") {
    return { text: content.replace(/^\uFEFF/, ""), encoding: found("text", "It came as text.", []) };
  }
  const encoding = isOffered(ENCODINGS, chosen) ? given(chosen, ENCODINGS) : encodingOf(content, Decoder);
  const text = new Decoder(encoding.value ?? "utf-8", { fatal: false }).decode(content);
  return { text: text.replace(/^\uFEFF/, ""), encoding };
}
