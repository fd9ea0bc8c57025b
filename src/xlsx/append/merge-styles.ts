import { prefixAt, readXml } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { changeTag } from "../xml/tag.js";
import { utf8Text } from "../xml/utf8.js";

/** Lists of a stylesheet in the order in which the schema wants them. */
const ORDER = [
  "numFmts",
  "fonts",
  "fills",
  "borders",
  "cellStyleXfs",
  "cellXfs",
  "cellStyles",
  "dxfs",
  "tableStyles",
  "colors",
  "extLst",
];

/** Lists that are joined, each after the ones that it refers to. */
const JOINED = ["fonts", "fills", "borders", "numFmts", "cellXfs", "dxfs"] as const;
type Joined = (typeof JOINED)[number];

/** Numbers of formats below this are the program's own. */
const FIRST_OWN_FORMAT = 164;

interface List {
  readonly name: string;
  readonly start: number;
  readonly openEnd: number;
  closeStart: number;
  end: number;
  readonly entries: { readonly start: number; end: number }[];
}

/** A stylesheet that holds the looks of two workbooks. */
export interface MergedStyles {
  readonly bytes: Uint8Array;
  /** The number in the merged stylesheet of a cell style of the second workbook. */
  cell(style: number): number;
  /** The same for what a conditional format or a table changes. */
  difference(index: number): number;
}

function survey(bytes: Uint8Array, place: string) {
  const lists: List[] = [];
  let root = { start: 0, openEnd: 0, closeStart: 0 };
  readXml(bytes, place, {
    open(name, _attributes, depth, start, end) {
      if (depth === 1) root = { start, openEnd: end, closeStart: end };
      if (depth === 2) lists.push({ name, start, openEnd: end, closeStart: start, end, entries: [] });
      if (depth === 3) lists.at(-1)?.entries.push({ start, end });
    },
    close(_name, depth, start, end) {
      const list = lists.at(-1);
      if (depth === 1) root = { ...root, closeStart: start };
      if (depth === 2 && list !== undefined) Object.assign(list, { closeStart: start, end });
      const entry = list?.entries.at(-1);
      if (depth === 3 && entry !== undefined) entry.end = end;
    },
  });
  const text = (from: number, to: number): string => utf8Text(bytes.subarray(from, to));
  return {
    prefix: prefixAt(bytes, root.start),
    root,
    lists,
    find: (name: string) => lists.find((list) => list.name === name),
    text,
    entriesOf: (name: string) =>
      lists.find((list) => list.name === name)?.entries.map(({ start, end }) => text(start, end)) ?? [],
  };
}

type Survey = ReturnType<typeof survey>;

function attribute(tag: string, name: string): number {
  return Number(new RegExp(`\\s${name}="(\\d+)"`).exec(tag)?.[1] ?? 0);
}

/** Puts other prefixes before the elements of a piece of XML. */
function withPrefix(xml: string, from: string, to: string): string {
  return from === to ? xml : xml.replace(/<(\/?)([\w.-]+:)?(?=[\w.-])/g, (_, slash: string) => `<${slash}${to}`);
}

function changedTag(xml: string, changes: Readonly<Record<string, string>>): string {
  const tag = /^<[^>]*>/.exec(xml)?.[0] ?? "";
  return changeTag(tag, changes, tag.endsWith("/>") ? "/>" : ">") + xml.slice(tag.length);
}

/** Numbers for the second workbook's own number formats, which the first does not use. */
function formatNumbers(one: Survey, other: Survey): ReadonlyMap<number, number> {
  const used = one.entriesOf("numFmts").map((entry) => attribute(entry, "numFmtId"));
  const next = Math.max(FIRST_OWN_FORMAT - 1, ...used) + 1;
  return new Map(other.entriesOf("numFmts").map((entry, index) => [attribute(entry, "numFmtId"), next + index]));
}

function addedEntries(one: Survey, other: Survey): Readonly<Record<Joined, readonly string[]>> {
  const counts = (list: string) => one.entriesOf(list).length;
  const formats = formatNumbers(one, other);
  const format = (tag: string) => {
    const id = attribute(tag, "numFmtId");
    return String(formats.get(id) ?? id);
  };
  const spelled = (list: string) => other.entriesOf(list).map((entry) => withPrefix(entry, other.prefix, one.prefix));
  return {
    fonts: spelled("fonts"),
    fills: spelled("fills"),
    borders: spelled("borders"),
    numFmts: spelled("numFmts").map((entry) => changedTag(entry, { numFmtId: format(entry) })),
    cellXfs: spelled("cellXfs").map((entry) =>
      changedTag(entry, {
        numFmtId: format(entry),
        fontId: String(counts("fonts") + attribute(entry, "fontId")),
        fillId: String(counts("fills") + attribute(entry, "fillId")),
        borderId: String(counts("borders") + attribute(entry, "borderId")),
        xfId: "0",
      }),
    ),
    dxfs: spelled("dxfs"),
  };
}

/** Where a list that is missing belongs: behind the last of those that come before it. */
function placeFor({ lists, root }: Survey, name: string): number {
  const before = new Set(ORDER.slice(0, ORDER.indexOf(name)));
  return lists.filter((list) => before.has(list.name)).at(-1)?.end ?? root.openEnd;
}

function joined(one: Survey, name: Joined, added: readonly string[]): readonly Splice[] {
  if (added.length === 0) return [];
  const { prefix } = one;
  const list = one.find(name);
  if (list === undefined) {
    const at = placeFor(one, name);
    return [
      { start: at, end: at, text: `<${prefix}${name} count="${added.length}">${added.join("")}</${prefix}${name}>` },
    ];
  }
  const count = String(list.entries.length + added.length);
  const open = changeTag(one.text(list.start, list.openEnd), { count }, ">");
  if (list.openEnd === list.end) {
    return [{ start: list.start, end: list.end, text: `${open}${added.join("")}</${prefix}${name}>` }];
  }
  return [
    { start: list.start, end: list.openEnd, text: open },
    { start: list.closeStart, end: list.closeStart, text: added.join("") },
  ];
}

/**
 * Adds the looks of one workbook to the stylesheet of another, behind what is there.
 *
 * @param one - The stylesheet to add to
 * @param other - The stylesheet whose looks are added
 * @source ECMA-376-1:2016, section 18.8.39 (styleSheet)
 */
export function mergeStyles(one: Uint8Array, other: Uint8Array, place: string): MergedStyles {
  const [first, second] = [survey(one, place), survey(other, place)];
  const added = addedEntries(first, second);
  const splices = JOINED.flatMap((name) => joined(first, name, added[name]));
  const [cells, differences] = [first.entriesOf("cellXfs").length, first.entriesOf("dxfs").length];
  return {
    bytes: spliceBytes(one, splices),
    cell: (style) => cells + style,
    difference: (index) => differences + index,
  };
}

/** Keeps a stylesheet as it is, for a workbook that has none of its own. */
export function sameStyles(bytes: Uint8Array): MergedStyles {
  return { bytes, cell: (style) => style, difference: (index) => index };
}
