import { SaxesParser } from "saxes";

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  /** The text directly inside, without the space around it. */
  readonly text: string;
  /** Names of the elements directly inside, in order. */
  readonly children: readonly string[];
  /** Names of the elements around it, outermost first. */
  readonly path: readonly string[];
}

/**
 * Returns the elements of an XML document in the order in which they end.
 *
 * @throws {Error} Where the document is not well-formed, with line and column
 */
export function readElements(xml: string): readonly XmlElement[] {
  const parser = new SaxesParser();
  const elements: XmlElement[] = [];
  const open: { name: string; attributes: Record<string, string>; text: string; children: string[] }[] = [];
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", ({ name, attributes }) => {
    open.at(-1)?.children.push(name);
    open.push({ name, attributes: { ...attributes }, text: "", children: [] });
  });
  parser.on("text", (text) => {
    const current = open.at(-1);
    if (current) current.text += text;
  });
  parser.on("closetag", () => {
    const closed = open.pop();
    if (closed) elements.push({ ...closed, text: closed.text.trim(), path: open.map(({ name }) => name) });
  });
  parser.write(xml).close();
  return elements;
}
