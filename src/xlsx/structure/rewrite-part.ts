import { type ByteRange, readXml, type XmlAttributes } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { escapeText, escapeXml } from "../xml/text.js";
import { utf8Text } from "../xml/utf8.js";

/** An element that is being read, with those around it. */
export interface OpenElement {
  readonly name: string;
  readonly attributes: XmlAttributes;
  readonly parent: OpenElement | undefined;
}

/** What becomes of an element: gone with all that is in it, or with other attributes, text or content. */
export type ElementChange =
  | "remove"
  | {
      /** Unescaped; undefined takes an attribute out. */
      readonly attributes?: Readonly<Record<string, string | undefined>>;
      /** Gives the text anew. */
      readonly text?: (text: string) => string;
      /** Elements to put before the end, already spelled, and how many they are. */
      readonly append?: { readonly xml: string; readonly count: number };
    };

/**
 * Lists that a part must have, also with nothing in them.
 *
 * @source ECMA-376-1:2016, section 18.7.6 (comments)
 */
const STAYS_EMPTY: ReadonlySet<string> = new Set(["commentList"]);

interface Level extends OpenElement {
  readonly start: number;
  readonly openEnd: number;
  change: Exclude<ElementChange, "remove"> | undefined;
  isRemoved: boolean;
  /** How many splices there were before this element. */
  readonly splicesBefore: number;
  readonly parent: Level | undefined;
  text: string;
  children: number;
  removed: number;
}

/**
 * Rewrites elements of a part; everything else keeps its bytes. A list all of whose elements are taken out goes with them unless the part must have it,
 * and where it says how many it holds, that is kept true.
 *
 * @param bytes - The part
 * @param place - The file and the part, for messages
 * @param visit - Says what becomes of an element; undefined leaves it
 * @param skipped - What somebody else rewrites
 * @returns The part; the very same bytes when nothing changes
 */
export function rewritePart(
  bytes: Uint8Array,
  place: string,
  visit: (element: OpenElement) => ElementChange | undefined,
  skipped?: ByteRange,
): Uint8Array {
  const splices = partSplices(bytes, place, visit, skipped);
  return splices.length === 0 ? bytes : spliceBytes(bytes, splices);
}

/** The same as splices, to be joined with others of the part. */
export function partSplices(
  bytes: Uint8Array,
  place: string,
  visit: (element: OpenElement) => ElementChange | undefined,
  skipped?: ByteRange,
): readonly Splice[] {
  const splices: Splice[] = [];
  let level: Level | undefined;

  function changeOpening(one: Level): void {
    const added = (one.change?.append?.count ?? 0) - one.removed;
    const count = one.attributes["count"];
    const counted = added !== 0 && count !== undefined ? { count: String(Number(count) + added) } : {};
    const given = one.change?.attributes ?? {};
    const attributes = Object.fromEntries(
      Object.entries({ ...given, ...counted }).map(([name, value]) => [name, value && escapeXml(value)]),
    );
    if (Object.entries(attributes).every(([name, value]) => sameAttribute(one.attributes[name], value))) return;
    const tag = utf8Text(bytes.subarray(one.start, one.openEnd));
    const text = changeTag(tag, attributes, tag.endsWith("/>") ? "/>" : ">");
    splices.push({ start: one.start, end: one.openEnd, text });
  }

  const sameAttribute = (old: string | undefined, value: string | undefined): boolean =>
    old === undefined || value === undefined ? old === value : escapeXml(old) === value;

  readXml(
    bytes,
    place,
    {
      open(name, attributes, _depth, start, openEnd) {
        const parent = level;
        const isRemoved = parent?.isRemoved === true;
        const opened: Level = {
          name,
          attributes,
          parent,
          start,
          openEnd,
          change: undefined,
          isRemoved,
          splicesBefore: splices.length,
          text: "",
          children: 0,
          removed: 0,
        };
        if (parent !== undefined) parent.children += 1;
        level = opened;
        if (isRemoved) return;
        const change = visit(opened);
        if (change === "remove") opened.isRemoved = true;
        else opened.change = change;
      },
      text(chunk) {
        if (level !== undefined) level.text += chunk;
      },
      close(_name, _depth, start, end) {
        const one = level;
        if (one === undefined) return;
        level = one.parent;
        const { parent, change } = one;
        const mayGo = parent !== undefined && !STAYS_EMPTY.has(one.name);
        const isEmptied = mayGo && one.removed > 0 && one.removed === one.children && change?.append === undefined;
        if (one.isRemoved || isEmptied) {
          if (parent?.isRemoved === true) return;
          splices.length = one.splicesBefore;
          splices.push({ start: one.start, end, text: "" });
          if (parent !== undefined) parent.removed += 1;
          return;
        }
        changeOpening(one);
        if (one.openEnd === end) return;
        if (change?.text !== undefined) {
          const text = change.text(one.text);
          // Quotes are written as the part writes them.
          const isEscaped = utf8Text(bytes.subarray(one.openEnd, start)).includes("&quot;");
          const escaped = isEscaped ? escapeXml(text) : escapeText(text);
          if (text !== one.text) splices.push({ start: one.openEnd, end: start, text: escaped });
        }
        if (change?.append !== undefined) splices.push({ start, end: start, text: change.append.xml });
      },
    },
    skipped,
  );
  return splices;
}
