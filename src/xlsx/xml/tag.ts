const ATTRIBUTE = /\s+([^\s=]+)\s*=\s*("[^"]*"|'[^']*')/g;

/** Returns where the tag that starts at an offset ends: after its ">". */
export function tagEnd(bytes: Uint8Array, start: number): number {
  let quote = 0;
  for (let at = start; at < bytes.length; at += 1) {
    const byte = bytes[at] as number;
    if (quote !== 0) {
      if (byte === quote) quote = 0;
    } else if (byte === 0x22 || byte === 0x27) quote = byte;
    else if (byte === 0x3e) return at + 1;
  }
  return bytes.length;
}

/** Whether nothing is to be changed, as far as a glance tells: attributes go that are not there, and it ends as it is to. */
function isLeft(tag: string, changes: Readonly<Record<string, string | undefined>>, ending: string): boolean {
  if (tag.endsWith("/>") !== (ending === "/>")) return false;
  for (const attribute in changes) {
    if (changes[attribute] !== undefined || tag.includes(attribute)) return false;
  }
  return true;
}

/**
 * Changes attributes of an opening tag; the others stay as they are written.
 *
 * @param tag - The tag, from "<" to ">"
 * @param changes - New values, already escaped, by attribute; undefined takes the attribute out
 * @param ending - How the tag is to end: ">" or "/>"
 */
export function changeTag(
  tag: string,
  changes: Readonly<Record<string, string | undefined>>,
  ending: ">" | "/>",
): string {
  if (isLeft(tag, changes, ending)) return tag;
  const [name = ""] = /^<[^\s/>]+/.exec(tag) ?? [];
  const open = new Map(Object.entries(changes));
  let result = name;
  for (const [text, attribute = ""] of tag.slice(name.length).matchAll(ATTRIBUTE)) {
    if (!open.has(attribute)) result += text;
    else if (open.get(attribute) !== undefined) result += ` ${attribute}="${open.get(attribute)}"`;
    open.delete(attribute);
  }
  for (const [attribute, value] of open) {
    if (value !== undefined) result += ` ${attribute}="${value}"`;
  }
  return result + ending;
}
