import { prefixAt, readXml, type XmlAttributes } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { utf8Bytes, utf8Text } from "../xml/utf8.js";

/** Name by which cell metadata says that a formula is a dynamic array. */
const TYPE_NAME = "XLDAPR";
const NAMESPACE = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const TYPE_ATTRIBUTES = `name="${TYPE_NAME}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"`;
const PROPERTIES = `<xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/>`;

export const METADATA_CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";
export const METADATA_RELATIONSHIP =
  "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata";

/** The metadata part, and the number by which a cell refers to "this is a dynamic array" in it. */
export interface DynamicArrayMetadata {
  readonly bytes: Uint8Array;
  readonly cellMetadata: number;
}

/** A list of the metadata part and where it stands. */
interface List {
  readonly name: string;
  readonly attributes: XmlAttributes;
  readonly start: number;
  readonly openEnd: number;
  closeStart: number;
  end: number;
  count: number;
}

/**
 * Makes sure that a workbook's metadata can say that a cell holds a dynamic array.
 *
 * @param bytes - The metadata part, undefined when the workbook has none
 * @param place - The file and the part, for messages
 * @source ECMA-376-1:2016, section 18.9 (metadata); [MS-XLSX], dynamicArrayProperties
 */
export function ensureDynamicArrays(bytes: Uint8Array | undefined, place: string): DynamicArrayMetadata {
  const part =
    bytes ??
    utf8Bytes(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<metadata xmlns="${NAMESPACE}"></metadata>`);
  const { prefix, root, lists, typeNames, cellRecords, dynamicValues } = survey(part, place);
  const typeIndex = typeNames.indexOf(TYPE_NAME) + 1;
  const known = cellRecords.findIndex(({ t, v }) => typeIndex > 0 && t === typeIndex && dynamicValues.has(v));
  if (known >= 0) return { bytes: part, cellMetadata: known + 1 };

  const find = (name: string, ofType?: string): List | undefined =>
    lists.find((list) => list.name === name && (ofType === undefined || list.attributes["name"] === ofType));
  const types = find("metadataTypes");
  const future = find("futureMetadata", TYPE_NAME);
  const cells = find("cellMetadata");
  // The schema's order: types, strings, queries, future metadata, cell metadata, value metadata, extensions.
  const before = (...names: string[]): number =>
    lists.find(({ name }) => names.includes(name))?.start ?? root.closeStart;
  const el = (name: string, attributes: string, content: string): string =>
    `<${prefix}${name}${attributes}>${content}</${prefix}${name}>`;

  const splices: Splice[] = [];
  const append = (list: List | undefined, name: string, attributes: string, at: number, item: string): void => {
    if (list === undefined) splices.push({ start: at, end: at, text: el(name, `${attributes} count="1"`, item) });
    else splices.push(...appendTo(part, list, item, `${prefix}${name}`));
  };
  if (typeIndex === 0) {
    const type = `<${prefix}metadataType ${TYPE_ATTRIBUTES}/>`;
    append(types, "metadataTypes", "", lists[0]?.start ?? root.closeStart, type);
  }
  const extension = el("ext", ' uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"', PROPERTIES);
  const futureItem = el("bk", "", el("extLst", "", extension));
  append(
    future,
    "futureMetadata",
    ` name="${TYPE_NAME}"`,
    before("cellMetadata", "valueMetadata", "extLst"),
    futureItem,
  );
  const record = el("bk", "", `<${prefix}rc t="${typeIndex || typeNames.length + 1}" v="${future?.count ?? 0}"/>`);
  append(cells, "cellMetadata", "", before("valueMetadata", "extLst"), record);
  return { bytes: spliceBytes(part, splices), cellMetadata: (cells?.count ?? 0) + 1 };
}

function appendTo(part: Uint8Array, list: List, item: string, name: string): readonly Splice[] {
  const tag = utf8Text(part.subarray(list.start, list.openEnd));
  const open = changeTag(tag, { count: String(list.count + 1) }, ">");
  if (list.openEnd === list.end) return [{ start: list.start, end: list.end, text: `${open}${item}</${name}>` }];
  return [
    { start: list.start, end: list.openEnd, text: open },
    { start: list.closeStart, end: list.closeStart, text: item },
  ];
}

function survey(part: Uint8Array, place: string) {
  const lists: List[] = [];
  const typeNames: string[] = [];
  const cellRecords: { readonly t: number; readonly v: number }[] = [];
  const dynamicValues = new Set<number>();
  let root = { start: 0, closeStart: 0 };
  readXml(part, place, {
    open(name, attributes, depth, start, end) {
      const list = lists.at(-1);
      if (depth === 1) root = { start, closeStart: end };
      else if (depth === 2) lists.push({ name, attributes, start, openEnd: end, closeStart: end, end, count: 0 });
      else if (list === undefined) return;
      else if (depth === 3) {
        list.count += 1;
        if (name === "metadataType") typeNames.push(attributes["name"] ?? "");
      } else if (list.name === "cellMetadata" && name === "rc") {
        cellRecords.push({ t: Number(attributes["t"]), v: Number(attributes["v"]) });
      } else if (list.attributes["name"] === TYPE_NAME && name === "dynamicArrayProperties") {
        if (attributes["fDynamic"] === "1" || attributes["fDynamic"] === "true") dynamicValues.add(list.count - 1);
      }
    },
    close(_name, depth, start, end) {
      const list = lists.at(-1);
      if (depth === 1) root = { ...root, closeStart: start };
      if (depth !== 2 || list === undefined) return;
      list.closeStart = start;
      list.end = end;
    },
  });
  return { prefix: prefixAt(part, root.start), root, lists, typeNames, cellRecords, dynamicValues };
}
