import { decodeEntities, isPlainText } from "./plain-xml.js";
import { latin1Text, utf8Text } from "./utf8.js";
import type { ByteRange, XmlAttributes, XmlHandler } from "./xml-handler.js";

/** Larger parts than these are sheets and tables of texts, whose rows are read by themselves. */
const MOST_BYTES = 262_144;
const MOST_ATTRIBUTES = 32;
const MOST_DEPTH = 32;

const DECLARATION = /<\?xml version="1\.0"(?: encoding="(?:utf|UTF)-8")?(?: standalone="(?:yes|no)")? ?\?>/y;
const TAG = /<(\/?)([A-Za-z][\w.:-]*)((?:[ \t\r\n]+[A-Za-z][\w.:-]*="[^"<]*")*)[ \t\r\n]*(\/?)>/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const CONTROL = /[\x00-\x1f]/;
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const NOT_PLAIN_BETWEEN = /[\x00-\x08\x0b-\x1f]|\]\]>/;
const ONLY_SPACE = /^[ \t\r\n]*$/;

/** What a handler is told, in document order. */
type Event =
  | { readonly kind: "text"; readonly text: string }
  | {
      readonly kind: "open" | "close";
      readonly name: string;
      readonly attributes: XmlAttributes;
      readonly depth: number;
      /** The stretch that it stands in, and its letters there. */
      readonly stretch: number;
      readonly start: number;
      readonly end: number;
    };

const NO_ATTRIBUTES: XmlAttributes = Object.freeze(Object.create(null) as Record<string, string>);

/** Decodes what stands as bytes, one letter each; undefined where it is not plain text. */
function decoded(letters: string): string | undefined {
  const isAscii = !/[\x7f-\xff]/.test(letters);
  if (!letters.includes("&") && isAscii) return letters;
  const text = isAscii ? letters : utf8Text(Uint8Array.from(letters, (letter) => letter.charCodeAt(0)));
  if (!isPlainText(text)) return undefined;
  return text.includes("&") ? decodeEntities(text) : text;
}

/** Reads the attributes of a tag that `TAG` has let pass. */
function attributesIn(text: string): XmlAttributes | undefined {
  if (text === "") return NO_ATTRIBUTES;
  const attributes = Object.create(null) as Record<string, string>;
  let count = 0;
  for (let at = 0; at < text.length; count += 1) {
    const equals = text.indexOf("=", at);
    const end = text.indexOf('"', equals + 2);
    const name = text.slice(at, equals).trim();
    const letters = text.slice(equals + 2, end);
    // A line break would become a blank.
    const value = CONTROL.test(letters) ? undefined : decoded(letters);
    if (value === undefined || name in attributes || count === MOST_ATTRIBUTES) return undefined;
    attributes[name] = value;
    at = end + 1;
  }
  return attributes;
}

const localName = (name: string) => name.slice(name.indexOf(":") + 1);

/**
 * Reads the elements of a small part that is spelled as programs spell it nearly always: attributes in double quotes, no
 * comments, instructions or sections of raw text. Several times as fast as hearing an XML parser out.
 *
 * @param stretches - The letters of what is to be read of it, a byte each, one stretch behind the other
 * @returns Everything in it; undefined where something is spelled otherwise, or wrongly, for the parser to judge
 */
function plainEvents(stretches: readonly string[]): readonly Event[] | undefined {
  const events: Event[] = [];
  const open: string[] = [];
  let isRootClosed = false;
  for (const [stretch, letters] of stretches.entries()) {
    DECLARATION.lastIndex = 0;
    let at = stretch === 0 && DECLARATION.test(letters) ? DECLARATION.lastIndex : 0;
    while (at < letters.length) {
      const next = letters.indexOf("<", at);
      const textEnd = next < 0 ? letters.length : next;
      if (textEnd > at) {
        const between = letters.slice(at, textEnd);
        if (open.length > 0) {
          const text = NOT_PLAIN_BETWEEN.test(between) ? undefined : decoded(between);
          if (text === undefined) return undefined;
          events.push({ kind: "text", text });
        } else if (!ONLY_SPACE.test(between)) return undefined;
      }
      if (next < 0) break;
      TAG.lastIndex = next;
      const [tag, slash, name = "", written = "", isEmpty] = TAG.exec(letters) ?? [];
      if (tag === undefined || isRootClosed) return undefined;
      const place = { name: localName(name), stretch, start: next, end: next + tag.length };
      if (slash === "/") {
        if (open.pop() !== name || written !== "" || isEmpty === "/") return undefined;
        events.push({ kind: "close", ...place, attributes: NO_ATTRIBUTES, depth: open.length + 1 });
      } else {
        const attributes = attributesIn(written);
        const depth = open.length + 1;
        if (attributes === undefined || depth > MOST_DEPTH) return undefined;
        events.push({ kind: "open", ...place, attributes, depth });
        if (isEmpty === "/") events.push({ kind: "close", ...place, attributes, depth });
        else open.push(name);
      }
      isRootClosed = open.length === 0;
      at = next + tag.length;
    }
  }
  return isRootClosed ? events : undefined;
}

/**
 * What was read last, by its letters: workbooks of one template have the same lists, rules and relationships, and a
 * roll-up opens thousands of them.
 */
const KNOWN = new Map<string, readonly Event[] | undefined>();
/** Letters that are kept altogether; what they say takes several times as much memory. */
const MOST_KEPT = 262_144;
let kept = 0;

function knownEvents(stretches: readonly string[]): readonly Event[] | undefined {
  // No plain part holds the letter that parts the stretches.
  const written = stretches.join("\0");
  const known = KNOWN.get(written);
  if (known !== undefined || KNOWN.has(written)) return known;
  const events = plainEvents(stretches);
  if (written.length > MOST_KEPT) return events;
  if (kept + written.length > MOST_KEPT) {
    KNOWN.clear();
    kept = 0;
  }
  KNOWN.set(written, events);
  kept += written.length;
  return events;
}

/** Tells a handler the elements of a part that is spelled plainly; false, with nothing told, where it is not. */
export function tellPlainElements(
  bytes: Uint8Array,
  stretches: readonly ByteRange[],
  { open, text, close }: XmlHandler,
): boolean {
  if (stretches.reduce((sum, { start, end }) => sum + end - start, 0) > MOST_BYTES) return false;
  const events = knownEvents(stretches.map(({ start, end }) => latin1Text(bytes.subarray(start, end))));
  if (events === undefined) return false;
  for (const event of events) {
    if (event.kind === "text") {
      text?.(event.text);
      continue;
    }
    const { name, depth } = event;
    const offset = (stretches[event.stretch] as ByteRange).start;
    if (event.kind === "open") open?.(name, event.attributes, depth, offset + event.start, offset + event.end);
    else close?.(name, depth, offset + event.start, offset + event.end);
  }
  return true;
}
