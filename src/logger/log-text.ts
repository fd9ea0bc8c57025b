import { assumed, found, given, isOffered, type LogAnswer } from "./log-answer.js";
import { headOf, inPieces, type LogContent, type LogPieces } from "./log-content.js";

/** The decoder that browsers and Node share; whoever runs there hands it in. */
export type TextDecoderMaker = new (
  label: string,
  options: { readonly fatal: boolean },
) => { decode(bytes?: Uint8Array, options?: { readonly stream: boolean }): string };

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

/** Characters of a text that are handed on at a time. */
const PIECE_CHARACTERS = 2 ** 18;

function zeroShare(bytes: Uint8Array, odd: 0 | 1): number {
  let zeros = 0;
  for (let index = odd; index < bytes.length; index += 2) if (bytes[index] === 0) zeros += 1;
  return bytes.length === 0 ? 0 : zeros / (bytes.length / 2);
}

function isUtf8({ pieces }: LogPieces, Decoder: TextDecoderMaker): boolean {
  const decoder = new Decoder("utf-8", { fatal: true });
  try {
    for (const piece of pieces()) decoder.decode(piece, { stream: true });
    decoder.decode();
    return true;
  } catch (thrown) {
    // The standard names this error for bytes that are none of the encoding.
    if (thrown instanceof TypeError) return false;
    throw thrown;
  }
}

function encodingOf(pieces: LogPieces, Decoder: TextDecoderMaker): LogAnswer {
  const head = headOf(pieces, LOOKED_AT);
  const [first, second, third] = head;
  if (first === 0xef && second === 0xbb && third === 0xbf)
    return found("utf-8", "The file begins with its mark.", ENCODINGS);
  if (first === 0xff && second === 0xfe) return found("utf-16le", "The file begins with its mark.", ENCODINGS);
  if (first === 0xfe && second === 0xff) return found("utf-16be", "The file begins with its mark.", ENCODINGS);
  if (zeroShare(head, 1) > 0.5) return found("utf-16le", "Every second byte is zero.", ENCODINGS);
  if (zeroShare(head, 0) > 0.5) return found("utf-16be", "Every second byte is zero.", ENCODINGS);
  if (isUtf8(pieces, Decoder)) return found("utf-8", "All of the file is valid UTF-8.", ENCODINGS);
  return assumed(
    "windows-1252",
    "The file is not UTF-8. Check that the column names read right; numbers are the same either way.",
    ENCODINGS,
  );
}

/** A log's text, piece by piece, and how its bytes were read. */
export interface LogText {
  /** Its text from the beginning, without the mark of its encoding. */
  readonly pieces: () => Iterable<string>;
  readonly encoding: LogAnswer;
}

function* piecesOf(text: string): Generator<string> {
  const from = text.startsWith("\uFEFF") ? 1 : 0;
  for (let at = from; at < text.length; at += PIECE_CHARACTERS) yield text.slice(at, at + PIECE_CHARACTERS);
}

function* decoded({ pieces }: LogPieces, encoding: string, Decoder: TextDecoderMaker): Generator<string> {
  // The decoder takes the mark away by itself.
  const decoder = new Decoder(encoding, { fatal: false });
  for (const piece of pieces()) yield* piecesOf(decoder.decode(piece, { stream: true }));
  const rest = decoder.decode();
  if (rest !== "") yield rest;
}

/**
 * Turns the bytes of a log into text: by the mark at its beginning, by being valid UTF-8, else as Windows-1252.
 *
 * @param content - Bytes, whole or in pieces, or text that somebody has decoded already
 * @param chosen - What a person says the encoding is
 * @param Decoder - TextDecoder
 * @throws {LogProblem} When there are more bytes than any log has
 */
export function logText(content: LogContent, chosen: string | undefined, Decoder: TextDecoderMaker): LogText {
  if (typeof content === "string") {
    return { pieces: () => piecesOf(content), encoding: found("text", "It came as text.", []) };
  }
  const pieces = inPieces(content);
  const encoding = isOffered(ENCODINGS, chosen) ? given(chosen, ENCODINGS) : encodingOf(pieces, Decoder);
  return { pieces: () => decoded(pieces, encoding.value ?? "utf-8", Decoder), encoding };
}

/** Returns the first characters of a text. */
export function textHead({ pieces }: LogText, length: number): string {
  let head = "";
  for (const piece of pieces()) {
    head += piece;
    if (head.length >= length) break;
  }
  return head.slice(0, length);
}
