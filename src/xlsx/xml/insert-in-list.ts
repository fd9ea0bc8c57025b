import { prefixAt, readXml } from "./read-xml.js";
import { spliceBytes } from "./splice.js";
import { changeTag } from "./tag.js";
import { utf8Text } from "./utf8.js";

interface Found {
  readonly start: number;
  readonly openEnd: number;
  readonly closeStart: number;
  readonly end: number;
}

/** Where the children of a part's root stand, by name; of several the last. */
function childrenOf(bytes: Uint8Array, place: string): ReadonlyMap<string, Found> {
  const children = new Map<string, Found>();
  let [start, openEnd] = [0, 0];
  readXml(bytes, place, {
    open(_name, _attributes, depth, from, to) {
      if (depth === 2) [start, openEnd] = [from, to];
    },
    close(name, depth, from, to) {
      if (depth === 2) children.set(name, { start, openEnd, closeStart: from, end: to });
    },
  });
  return children;
}

/**
 * Puts elements at the end of a list, a child of a part's root, however its tags are spelled.
 *
 * @param bytes - The part
 * @param place - The file and the part, for messages
 * @param list - The list's name
 * @param behind - Where the part has no such list: the elements behind the first of which it has to stand
 * @param content - Spells the elements with the prefix of the list
 * @returns The part; as it was where it has neither the list nor an element behind which it belongs
 */
export function insertInList(
  bytes: Uint8Array,
  place: string,
  list: string,
  behind: readonly string[],
  content: (prefix: string) => string,
): Uint8Array {
  const children = childrenOf(bytes, place);
  const found = children.get(list);
  if (found === undefined) {
    const before = behind.map((name) => children.get(name)).find((child) => child !== undefined);
    if (before === undefined) return bytes;
    const prefix = prefixAt(bytes, before.start);
    const text = `<${prefix}${list}>${content(prefix)}</${prefix}${list}>`;
    return spliceBytes(bytes, [{ start: before.end, end: before.end, text }]);
  }
  const { start, openEnd, closeStart, end } = found;
  const prefix = prefixAt(bytes, start);
  if (openEnd !== end) return spliceBytes(bytes, [{ start: closeStart, end: closeStart, text: content(prefix) }]);
  const open = changeTag(utf8Text(bytes.subarray(start, openEnd)), {}, ">");
  return spliceBytes(bytes, [{ start, end, text: `${open}${content(prefix)}</${prefix}${list}>` }]);
}
