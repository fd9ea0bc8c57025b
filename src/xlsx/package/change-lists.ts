import { prefixAt, readXml } from "../xml/read-xml.js";
import { spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { escapeXml } from "../xml/text.js";
import { utf8Bytes, utf8Text } from "../xml/utf8.js";
import { contentTypeOf, readContentTypes } from "./content-types.js";
import { readRelationships, resolvePart } from "./relationships.js";

const PACKAGE_NAMESPACE = "http://schemas.openxmlformats.org/package/2006";

/** Names a part's content type in the list of content types, replacing what the list said of it. */
export function withContentType(list: Uint8Array, place: string, partName: string, contentType: string): Uint8Array {
  if (contentTypeOf(readContentTypes(list, place), partName) === contentType) return list;
  const rest = withoutContentType(list, place, partName);
  const attributes = `PartName="/${escapeXml(partName)}" ContentType="${escapeXml(contentType)}"`;
  return appendElement(rest, place, "Override", attributes);
}

/** Takes a part out of the list of content types. */
export function withoutContentType(list: Uint8Array, place: string, partName: string): Uint8Array {
  return withoutElements(list, place, ({ PartName: name }) => {
    return name?.replace(/^\//, "").toLowerCase() === partName.toLowerCase();
  });
}

/** Adds a relationship to a part's list of them unless it is there; without a list, makes one. */
export function withRelationship(
  list: Uint8Array | undefined,
  place: string,
  relationship: { readonly source: string; readonly type: string; readonly target: string },
): Uint8Array {
  const { source, type, target } = relationship;
  const before = list ?? utf8Bytes(`<Relationships xmlns="${PACKAGE_NAMESPACE}/relationships"></Relationships>`);
  const known = readRelationships(before, place, source);
  if (list !== undefined && known.some((one) => one.type === type && one.target === target)) return list;
  const ids = new Set(known.map(({ id }) => id));
  let number = ids.size + 1;
  while (ids.has(`rId${number}`)) number += 1;
  return withNewRelationship(before, place, { id: `rId${number}`, type, target });
}

/** Adds a relationship to a list in which nothing has its id yet. */
export function withNewRelationship(
  list: Uint8Array,
  place: string,
  { id, type, target }: { readonly id: string; readonly type: string; readonly target: string },
): Uint8Array {
  const attributes = `Id="${escapeXml(id)}" Type="${escapeXml(type)}" Target="/${escapeXml(target)}"`;
  return appendElement(list, place, "Relationship", attributes);
}

/** Takes every relationship to a part out of the list of relationships of a source part. */
export function withoutRelationshipsTo(list: Uint8Array, place: string, source: string, partName: string): Uint8Array {
  return withoutElements(list, place, ({ Target: target, TargetMode: mode }) => {
    if (target === undefined || mode === "External") return false;
    return resolvePart(source, target).toLowerCase() === partName.toLowerCase();
  });
}

/** Returns the part whose relationships a part lists, or undefined when it is no list of relationships. */
export function sourceOfList(listName: string): string | undefined {
  const match = /^(.*\/)?_rels\/([^/]*)\.rels$/i.exec(listName);
  return match === null ? undefined : `${match[1] ?? ""}${match[2] ?? ""}`;
}

type Attributes = Readonly<Record<string, string>>;

function withoutElements(list: Uint8Array, place: string, isUnwanted: (attributes: Attributes) => boolean): Uint8Array {
  const splices: { start: number; end: number; text: string }[] = [];
  let from = -1;
  readXml(list, place, {
    open(_name, attributes, depth, start) {
      if (depth === 2) from = isUnwanted(attributes) ? start : -1;
    },
    close(_name, depth, _start, end) {
      if (depth === 2 && from >= 0) splices.push({ start: from, end, text: "" });
    },
  });
  return splices.length === 0 ? list : spliceBytes(list, splices);
}

function appendElement(list: Uint8Array, place: string, name: string, attributes: string): Uint8Array {
  let root = { start: 0, openEnd: 0, closeStart: 0, end: 0 };
  readXml(list, place, {
    open(_name, _attributes, depth, start, end) {
      if (depth === 1) root = { start, openEnd: end, closeStart: end, end };
    },
    close(_name, depth, start, end) {
      if (depth === 1) root = { ...root, closeStart: start, end };
    },
  });
  const prefix = prefixAt(list, root.start);
  const element = `<${prefix}${name} ${attributes}/>`;
  if (root.openEnd !== root.end)
    return spliceBytes(list, [{ start: root.closeStart, end: root.closeStart, text: element }]);
  const tag = utf8Text(list.subarray(root.start, root.end));
  const [rootName = ""] = /[^<\s/>]+/.exec(tag) ?? [];
  const text = `${changeTag(tag, {}, ">")}${element}</${rootName}>`;
  return spliceBytes(list, [{ start: root.start, end: root.end, text }]);
}
