import { SaxesParser } from "saxes";
import { WORKBOOK_LIMITS } from "../limits.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { tellPlainElements } from "./plain-elements.js";
import { latin1Text, utf8Text } from "./utf8.js";
import type { ByteRange, XmlHandler } from "./xml-handler.js";

export type { ByteRange, XmlAttributes, XmlHandler } from "./xml-handler.js";

const PARSER_OPTIONS = { position: false, xmlns: false, forceXMLVersion: true, defaultXMLVersion: "1.0" } as const;
type PlainParser = SaxesParser<typeof PARSER_OPTIONS>;

const CHUNK_BYTES = 65_536;
const LESS_THAN = 0x3c;
const OPEN_AGAIN = "Open it in your spreadsheet program, save it again as .xlsx, and use that copy.";

/**
 * Reads an XML part from start to end and reports its elements with their byte offsets.
 *
 * Refused: a document type (the only way to define entities), UTF-16 and other encodings than UTF-8, more than 256 levels
 * of elements, and everything that is not well-formed. XML 1.1 is read as 1.0.
 *
 * @param bytes - The part
 * @param place - The file and the part, named in messages
 * @param handler - Called in document order
 * @param skipped - Whole elements, right after an opening tag, that somebody else has read
 * @throws {WorkbookFileError} When the part is not well-formed or not safe
 */
export function readXml(bytes: Uint8Array, place: string, handler: XmlHandler, skipped?: ByteRange): void {
  refuseOtherEncodings(bytes, place);
  const first = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const stretches =
    skipped === undefined
      ? [{ start: first, end: bytes.length }]
      : [
          { start: first, end: skipped.start },
          { start: skipped.end, end: bytes.length },
        ];
  if (!tellPlainElements(bytes, stretches, handler)) parseXml(bytes, place, handler, stretches);
}

/** Hears an XML parser out, whatever the spelling; it refuses what is not well-formed. */
function parseXml(bytes: Uint8Array, place: string, handler: XmlHandler, stretches: readonly ByteRange[]): void {
  const parser: PlainParser = new SaxesParser(PARSER_OPTIONS);
  const cursor = makeCursor(parser);
  let depth = 0;
  let attributeCount = 0;
  parser.on("error", (cause) => {
    throw notWellFormed(place, cause);
  });
  parser.on("doctype", () => {
    throw unsafe(place, "holds a document type declaration, which workbooks never need");
  });
  parser.on("xmldecl", ({ encoding }) => {
    if (encoding !== undefined && !/^(utf-?8|us-ascii)$/i.test(encoding)) {
      throw unsafe(place, `is written in the encoding ${encoding.slice(0, 40)} instead of UTF-8`);
    }
  });
  parser.on("attribute", () => {
    attributeCount += 1;
    if (attributeCount > WORKBOOK_LIMITS.xmlAttributes) {
      throw unsafe(place, `has an element with more than ${WORKBOOK_LIMITS.xmlAttributes} attributes`);
    }
  });
  parser.on("opentag", (tag) => {
    attributeCount = 0;
    depth += 1;
    if (depth > WORKBOOK_LIMITS.xmlDepth) {
      throw unsafe(place, `nests elements more than ${WORKBOOK_LIMITS.xmlDepth} deep`);
    }
    handler.open?.(localName(tag.name), tag.attributes, depth, tagStart(cursor), tagEnd(cursor));
  });
  parser.on("closetag", (tag) => {
    handler.close?.(localName(tag.name), depth, tagStart(cursor), tagEnd(cursor));
    depth -= 1;
  });
  if (handler.text !== undefined) {
    parser.on("text", handler.text);
    parser.on("cdata", handler.text);
  }
  for (const stretch of stretches) {
    for (const { start, end } of chunksOf(bytes, stretch)) {
      if (end - start > WORKBOOK_LIMITS.xmlRunBytes) throw unsafe(place, "holds a tag or a text of more than 1 MB");
      const chunk = utf8Text(bytes.subarray(start, end));
      enter(cursor, chunk, start, end - start);
      parser.write(chunk);
      if (!isAtEnd(cursor)) throw unsafe(place, "holds bytes that are not UTF-8 text");
    }
  }
  parser.close();
}

/** Cuts just before a "<", so that a tag never straddles two chunks. */
function* chunksOf(bytes: Uint8Array, { start: from, end: to }: ByteRange): Generator<ByteRange> {
  let start = from;
  while (start < to) {
    let end = start + CHUNK_BYTES;
    if (end >= to) end = to;
    else {
      end = bytes.lastIndexOf(LESS_THAN, end);
      if (end <= start) end = bytes.indexOf(LESS_THAN, start + 1);
      if (end < 0 || end > to) end = to;
    }
    yield { start, end };
    start = end;
  }
}

/** Turns the parser's position, in characters of all chunks so far, into bytes of the part. */
interface Cursor {
  readonly parser: PlainParser;
  chunk: string;
  unitsBefore: number;
  byteStart: number;
  byteLength: number;
  isAscii: boolean;
  /** The last position asked for; the next one lies at or after it, or at the same tag's start. */
  unitAt: number;
  byteAt: number;
}

function makeCursor(parser: PlainParser): Cursor {
  const start = { chunk: "", unitsBefore: 0, byteStart: 0, byteLength: 0, isAscii: true, unitAt: 0, byteAt: 0 };
  return { parser, ...start };
}

function enter(cursor: Cursor, chunk: string, start: number, length: number): void {
  cursor.unitsBefore += cursor.chunk.length;
  cursor.chunk = chunk;
  cursor.byteStart = start;
  cursor.byteLength = length;
  // Bytes that are no UTF-8 become U+FFFD, one for one perhaps.
  cursor.isAscii = chunk.length === length && !chunk.includes("\ufffd");
  cursor.unitAt = 0;
  cursor.byteAt = 0;
}

function bytesTo(cursor: Cursor, unit: number): number {
  if (cursor.isAscii) return cursor.byteStart + unit;
  if (unit < cursor.unitAt) {
    cursor.unitAt = 0;
    cursor.byteAt = 0;
  }
  for (; cursor.unitAt < unit; cursor.unitAt += 1) cursor.byteAt += utf8Bytes(cursor.chunk.charCodeAt(cursor.unitAt));
  return cursor.byteStart + cursor.byteAt;
}

const unitEnd = ({ parser, unitsBefore }: Cursor): number => parser.position - unitsBefore;
const tagStart = (cursor: Cursor): number => bytesTo(cursor, cursor.chunk.lastIndexOf("<", unitEnd(cursor) - 1));
const tagEnd = (cursor: Cursor): number => bytesTo(cursor, unitEnd(cursor));
const isAtEnd = (cursor: Cursor): boolean =>
  bytesTo(cursor, cursor.chunk.length) - cursor.byteStart === cursor.byteLength;

/** A surrogate is half of a character of four bytes. */
function utf8Bytes(unit: number): number {
  if (unit < 0x80) return 1;
  if (unit < 0x800) return 2;
  return unit >= 0xd800 && unit <= 0xdfff ? 2 : 3;
}

/** Returns the prefix, with its colon, of the element whose tag starts at an offset; "" for none. */
export function prefixAt(bytes: Uint8Array, start: number): string {
  const name = /^<([\w.-]+:)?/.exec(latin1Text(bytes.subarray(start, start + 64)));
  return name?.[1] ?? "";
}

function localName(name: string): string {
  const colon = name.indexOf(":");
  return colon < 0 ? name : name.slice(colon + 1);
}

function refuseOtherEncodings(bytes: Uint8Array, place: string): void {
  const [first, second] = bytes;
  const hasMark = (first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff);
  if (hasMark || first === 0 || second === 0) throw unsafe(place, "is written in UTF-16 instead of UTF-8");
}

function unsafe(place: string, problem: string): WorkbookFileError {
  return new WorkbookFileError("unsafe-xml", place, problem, OPEN_AGAIN);
}

function notWellFormed(place: string, cause: Error): WorkbookFileError {
  const detail = cause.message.replace(/^\d*:?\d*:?\s*/, "").replace(/\.$/, "");
  return new WorkbookFileError("damaged-xml", place, `is not well-formed (${detail})`, OPEN_AGAIN, { cause });
}
