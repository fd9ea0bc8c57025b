import {
  bytesOf,
  indexOfBytes,
  NOT_PLAIN,
  OPEN,
  plainXmlAt,
  readTag,
  readText,
  skipSpace,
  startsWith,
} from "../xml/plain-xml.js";
import { decodeXstring } from "../xml/text.js";

const LIST = bytesOf("<sst");
const LIST_END = bytesOf("</sst>");
const ITEM = bytesOf("<si><t");
const ITEM_END = bytesOf("</t></si>");
const EMPTY_ITEM_END = bytesOf("</si>");

/** Texts without runs or guides, and where in the part their items stand. */
export interface PlainStrings {
  readonly strings: readonly string[];
  readonly start: number;
  readonly end: number;
}

/**
 * Reads the table of strings when each is one plain text. Whatever is spelled otherwise is left to the parser.
 *
 * @param bytes - The part
 * @returns undefined when something is spelled otherwise
 */
export function scanPlainStrings(bytes: Uint8Array): PlainStrings | undefined {
  const list = indexOfBytes(bytes, LIST);
  const xml = plainXmlAt(bytes, list + LIST.length);
  if (list < 0 || readTag(xml) !== OPEN) return undefined;
  const start = xml.at;
  const strings: string[] = [];
  for (;;) {
    skipSpace(xml);
    if (startsWith(xml, LIST_END)) return { strings, start, end: xml.at };
    if (!startsWith(xml, ITEM)) return undefined;
    xml.at += ITEM.length;
    const ending = readTag(xml);
    if (ending === NOT_PLAIN) return undefined;
    const text = ending === OPEN ? readText(xml) : "";
    const itemEnd = ending === OPEN ? ITEM_END : EMPTY_ITEM_END;
    if (text === undefined || !startsWith(xml, itemEnd)) return undefined;
    xml.at += itemEnd.length;
    strings.push(decodeXstring(text));
  }
}
