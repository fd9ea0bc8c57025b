import { readXml, type XmlAttributes } from "./read-xml.js";

/** An element with all that is in it. */
export interface XmlElement {
  /** Without its prefix. */
  readonly name: string;
  readonly attributes: XmlAttributes;
  readonly children: readonly XmlElement[];
  /** The text right in it, that of its children left out. */
  readonly text: string;
}

interface Draft extends XmlElement {
  readonly children: Draft[];
  text: string;
}

/**
 * Reads a small part whole. What is large is read by `readXml`, which keeps nothing.
 *
 * @param bytes - The part
 * @param place - The file and the part, for messages
 * @throws {WorkbookFileError} When the part is not well-formed or not safe
 */
export function readXmlTree(bytes: Uint8Array, place: string): XmlElement {
  const root: Draft = { name: "", attributes: {}, children: [], text: "" };
  const open: Draft[] = [root];
  readXml(bytes, place, {
    open(name, attributes) {
      const element: Draft = { name, attributes, children: [], text: "" };
      open.at(-1)?.children.push(element);
      open.push(element);
    },
    text(chunk) {
      const element = open.at(-1);
      if (element !== undefined) element.text += chunk;
    },
    close() {
      open.pop();
    },
  });
  return root.children[0] ?? root;
}

/** The first child of an element along a path of names. */
export function childOf(element: XmlElement | undefined, ...path: readonly string[]): XmlElement | undefined {
  let found = element;
  for (const name of path) found = found?.children.find((child) => child.name === name);
  return found;
}

/** The children of an element by their name. */
export function childrenOf(element: XmlElement | undefined, name: string): readonly XmlElement[] {
  return element?.children.filter((child) => child.name === name) ?? [];
}

/** The first element of a name, however deep. */
export function elementWithin(element: XmlElement | undefined, name: string): XmlElement | undefined {
  for (const child of element?.children ?? []) {
    const found = child.name === name ? child : elementWithin(child, name);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** All text in an element, its children's included, as it stands. */
export function textIn(element: XmlElement | undefined): string {
  return element === undefined ? "" : element.text + element.children.map(textIn).join("");
}
