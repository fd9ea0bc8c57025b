import { WORKBOOK_LIMITS } from "../limits.js";
import { latin1Text, utf8Text } from "./utf8.js";

const SPACE = 0x20;
const QUOTE = 0x22;
const AMPERSAND = 0x26;
const SLASH = 0x2f;
export const LESS_THAN = 0x3c;
const EQUALS = 0x3d;
const GREATER_THAN = 0x3e;
const BRACKET = 0x5d;

const MAX_ATTRIBUTES = 32;
const LONGEST_TEXT = WORKBOOK_LIMITS.xmlRunBytes / 2;

/** How a tag ends, or that it is not of the plain kind. */
export const OPEN = 1;
export const EMPTY = 2;
export const NOT_PLAIN = 0;

/** Bytes of names: letters, digits and - . _ : */
const IS_NAME = Uint8Array.from({ length: 256 }, (_, byte) =>
  /[\w:.-]/.test(String.fromCharCode(byte)) && byte < 128 ? 1 : 0,
);
/** Bytes of text that mean nothing but themselves. */
const IS_USUAL = Uint8Array.from({ length: 256 }, (_, byte) =>
  byte >= SPACE && byte <= 126 && ![LESS_THAN, GREATER_THAN, AMPERSAND].includes(byte) ? 1 : 0,
);
const ENTITIES: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/**
 * A place in plain XML, and the attributes of the tag read last. The functions here stand by themselves instead of
 * closing over it, because closures made anew for every sheet have to be compiled anew too.
 */
export interface PlainXml {
  readonly bytes: Uint8Array;
  at: number;
  attributeCount: number;
  readonly nameStarts: Int32Array;
  readonly nameEnds: Int32Array;
  readonly valueStarts: Int32Array;
  readonly valueEnds: Int32Array;
}

export function plainXmlAt(bytes: Uint8Array, at: number): PlainXml {
  return {
    bytes,
    at,
    attributeCount: 0,
    nameStarts: new Int32Array(MAX_ATTRIBUTES),
    nameEnds: new Int32Array(MAX_ATTRIBUTES),
    valueStarts: new Int32Array(MAX_ATTRIBUTES),
    valueEnds: new Int32Array(MAX_ATTRIBUTES),
  };
}

/** The bytes of plain letters, to be looked for. */
export const bytesOf = (text: string): readonly number[] => Array.from(text, (letter) => letter.charCodeAt(0));

/** Where some bytes stand first, or -1. */
export function indexOfBytes(bytes: Uint8Array, wanted: readonly number[]): number {
  const first = wanted[0] as number;
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1)) {
    if (wanted.every((byte, index) => bytes[at + index] === byte)) return at;
  }
  return -1;
}

/** Whether this comes next. */
export function startsWith(xml: PlainXml, expected: readonly number[]): boolean {
  return startsWithAt(xml, xml.at, expected);
}

function startsWithAt({ bytes }: PlainXml, at: number, expected: readonly number[]): boolean {
  for (let index = 0; index < expected.length; index += 1) {
    if (bytes[at + index] !== expected[index]) return false;
  }
  return true;
}

/** Whether there was any. */
export function skipSpace(xml: PlainXml): boolean {
  const start = xml.at;
  for (
    let byte = xml.bytes[xml.at];
    byte === SPACE || byte === 10 || byte === 13 || byte === 9;
    byte = xml.bytes[xml.at]
  )
    xml.at += 1;
  return xml.at > start;
}

/** Reads the attributes of a tag, from behind its name to behind its end. */
export function readTag(xml: PlainXml): number {
  xml.attributeCount = 0;
  for (;;) {
    const isSpaced = skipSpace(xml);
    const byte = xml.bytes[xml.at];
    if (byte === GREATER_THAN) {
      xml.at += 1;
      return OPEN;
    }
    if (byte === SLASH) {
      xml.at += 2;
      return xml.bytes[xml.at - 1] === GREATER_THAN ? EMPTY : NOT_PLAIN;
    }
    if (!isSpaced || xml.attributeCount === MAX_ATTRIBUTES || !readAttribute(xml)) return NOT_PLAIN;
  }
}

function readAttribute(xml: PlainXml): boolean {
  const nameStart = xml.at;
  while (IS_NAME[xml.bytes[xml.at] as number] === 1) xml.at += 1;
  const nameEnd = xml.at;
  // A name starts with a letter.
  const first = (xml.bytes[nameStart] as number) | 0x20;
  if (!(first >= 97 && first <= 122) || xml.bytes[xml.at] !== EQUALS || xml.bytes[xml.at + 1] !== QUOTE) return false;
  xml.at += 2;
  const valueStart = xml.at;
  for (let byte = xml.bytes[xml.at]; byte !== QUOTE; byte = xml.bytes[xml.at]) {
    if (byte === undefined || byte < SPACE || byte > 126 || byte === LESS_THAN || byte === AMPERSAND) return false;
    xml.at += 1;
  }
  for (let index = 0; index < xml.attributeCount; index += 1) {
    if (isSameName(xml, index, nameStart, nameEnd)) return false;
  }
  xml.nameStarts[xml.attributeCount] = nameStart;
  xml.nameEnds[xml.attributeCount] = nameEnd;
  xml.valueStarts[xml.attributeCount] = valueStart;
  xml.valueEnds[xml.attributeCount] = xml.at;
  xml.attributeCount += 1;
  xml.at += 1;
  return xml.at - nameStart <= WORKBOOK_LIMITS.xmlRunBytes;
}

function isSameName(xml: PlainXml, index: number, start: number, end: number): boolean {
  const other = xml.nameStarts[index] as number;
  if ((xml.nameEnds[index] as number) - other !== end - start) return false;
  for (let offset = 0; offset < end - start; offset += 1) {
    if (xml.bytes[other + offset] !== xml.bytes[start + offset]) return false;
  }
  return true;
}

/** Whether a stretch of the bytes spells some plain letters. */
function spells(xml: PlainXml, start: number, end: number, letters: string): boolean {
  if (end - start !== letters.length) return false;
  for (let offset = 0; offset < letters.length; offset += 1) {
    if (xml.bytes[start + offset] !== letters.charCodeAt(offset)) return false;
  }
  return true;
}

/** The value of an attribute of the tag read last. */
export function valueOfAttribute(xml: PlainXml, index: number): string {
  return latin1Text(xml.bytes.subarray(xml.valueStarts[index], xml.valueEnds[index]));
}

/** The value of an attribute of the tag read last, where it is one of those that are usual. */
export function usualValue(xml: PlainXml, index: number, usual: readonly string[]): string {
  const [start, end] = [xml.valueStarts[index] as number, xml.valueEnds[index] as number];
  for (const value of usual) {
    if (spells(xml, start, end, value)) return value;
  }
  return valueOfAttribute(xml, index);
}

/** The value of an attribute of the tag read last, by its name. */
export function attribute(xml: PlainXml, name: string): string | undefined {
  for (let index = 0; index < xml.attributeCount; index += 1) {
    if (spells(xml, xml.nameStarts[index] as number, xml.nameEnds[index] as number, name)) {
      return valueOfAttribute(xml, index);
    }
  }
  return undefined;
}

/** Reads text up to the next tag; undefined when it is not plain. */
export function readText(xml: PlainXml): string | undefined {
  const start = xml.at;
  let isAscii = true;
  let hasEntity = false;
  for (let byte = xml.bytes[xml.at]; byte !== LESS_THAN; byte = xml.bytes[xml.at]) {
    if (byte === undefined || (byte < SPACE && byte !== 10 && byte !== 9)) return undefined;
    if (byte > 126) isAscii = false;
    else if (byte === AMPERSAND) hasEntity = true;
    else if (byte === GREATER_THAN && xml.bytes[xml.at - 1] === BRACKET && xml.bytes[xml.at - 2] === BRACKET)
      return undefined;
    xml.at += 1;
  }
  if (xml.at - start > LONGEST_TEXT) return undefined;
  const text = utf8Text(xml.bytes.subarray(start, xml.at));
  if (!isAscii && !isPlainText(text)) return undefined;
  return hasEntity ? decodeEntities(text) : text;
}

const ENTITY_BYTES = Object.keys(ENTITIES).map((name) => bytesOf(`&${name};`));

function isEntityAt(xml: PlainXml, at: number): boolean {
  for (const entity of ENTITY_BYTES) {
    if (startsWithAt(xml, at, entity)) return true;
  }
  return false;
}

/** Passes over text that `readText` would read; false when it is not plain. */
export function skipText(xml: PlainXml): boolean {
  const { bytes, at: start } = xml;
  let at = start;
  // Most of a sheet is the text of formulas, so that this is where most of its bytes are looked at.
  for (;;) {
    while (IS_USUAL[bytes[at] as number] === 1) at += 1;
    if (bytes[at] !== AMPERSAND || !isEntityAt(xml, at)) break;
    at += 1;
  }
  if (bytes[at] !== LESS_THAN) return readText(xml) !== undefined;
  xml.at = at;
  return at - start <= LONGEST_TEXT;
}

/** Whether decoded text holds nothing for a parser to judge: bytes that are no UTF-8, letters that XML forbids. */
export function isPlainText(text: string): boolean {
  return !/[\ufffd-\uffff\u007f]/.test(text);
}

/** Replaces the entities that every XML document knows and characters given by number; undefined for any other. */
export function decodeEntities(text: string): string | undefined {
  let isPlain = true;
  const decoded = text.replace(/&([^;]{0,12};)?/g, (_, entity: string | undefined) => {
    const name = entity?.slice(0, -1) ?? "";
    const known = Object.hasOwn(ENTITIES, name) ? ENTITIES[name] : undefined;
    if (known !== undefined) return known;
    const code = /^#x[0-9a-f]+$/i.test(name)
      ? Number.parseInt(name.slice(2), 16)
      : /^#\d+$/.test(name)
        ? Number(name.slice(1))
        : 0;
    const isCharacter =
      code === 9 ||
      code === 10 ||
      code === 13 ||
      (code >= 32 && code < 0xd800) ||
      (code > 0xdfff && code < 0xfffe) ||
      (code > 0xffff && code <= 0x10ffff);
    if (isCharacter) return String.fromCodePoint(code);
    isPlain = false;
    return "";
  });
  return isPlain ? decoded : undefined;
}
