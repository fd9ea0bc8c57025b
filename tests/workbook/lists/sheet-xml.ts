import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";

/** A cell as a sheet's part spells it. */
export interface XmlCell {
  readonly column: string;
  readonly row: number;
  /** Attributes but the address. */
  readonly attributes: string;
  readonly inner: string;
}

/** A workbook taken apart by nothing but patterns, so that a test reads it without any reader of ours. */
export interface Taken {
  readonly parts: Readonly<Record<string, string>>;
  /** The part of each sheet, by its name. */
  readonly sheets: ReadonlyMap<string, string>;
  readonly strings: readonly string[];
}

const plainText = (xml: string) =>
  xml.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&amp;", "&");

export function taken(bytes: Uint8Array): Taken {
  const parts = Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, data]) => [name, strFromU8(data)]));
  const targets = new Map(
    [...(parts["xl/_rels/workbook.xml.rels"] ?? "").matchAll(/Id="([^"]+)"[^>]*Target="([^"]+)"/g)].map(
      ([, id = "", target = ""]) => [id, `xl/${target}`],
    ),
  );
  const sheets = new Map(
    [...(parts["xl/workbook.xml"] ?? "").matchAll(/<sheet name="([^"]+)"[^>]*r:id="([^"]+)"/g)].map(
      ([, name = "", id = ""]) => [plainText(name), targets.get(id) ?? ""],
    ),
  );
  const strings = [...(parts["xl/sharedStrings.xml"] ?? "").matchAll(/<si>(.*?)<\/si>/gs)].map(([, inner = ""]) =>
    [...inner.matchAll(/<t[^>]*>(.*?)<\/t>/gs)].map(([, text = ""]) => plainText(text)).join(""),
  );
  return { parts, sheets, strings };
}

export function packed({ parts }: Pick<Taken, "parts">): Uint8Array {
  return zipSync(Object.fromEntries(Object.entries(parts).map(([name, text]) => [name, strToU8(text)])), { level: 1 });
}

export function cellsOf(xml: string): readonly XmlCell[] {
  return [...xml.matchAll(/<c r="([A-Z]+)(\d+)"([^>]*?)(?:\/>|>(.*?)<\/c>)/gs)].map(
    ([, column = "", row = "", attributes = "", inner = ""]) => ({ column, row: Number(row), attributes, inner }),
  );
}

const spelled = ({ column, row, attributes, inner }: XmlCell) =>
  inner === "" ? `<c r="${column}${row}"${attributes}/>` : `<c r="${column}${row}"${attributes}>${inner}</c>`;

const order = (column: string) => column.length * 1000 + (column.charCodeAt(0) * 30 + (column.charCodeAt(1) || 0));

/** Puts cells in the place of those of a sheet; rows lose their heights, which no test asks for. */
export function withCells(xml: string, cells: readonly XmlCell[]): string {
  const rows = new Map<number, XmlCell[]>();
  for (const cell of cells) rows.set(cell.row, [...(rows.get(cell.row) ?? []), cell]);
  const data = [...rows]
    .sort(([one], [other]) => one - other)
    .map(([row, ofRow]) => {
      const inOrder = [...ofRow].sort((one, other) => order(one.column) - order(other.column));
      return `<row r="${row}">${inOrder.map(spelled).join("")}</row>`;
    });
  return xml.replace(/<sheetData>.*<\/sheetData>/s, () => `<sheetData>${data.join("")}</sheetData>`);
}

/** What a cell shows: a number, a text, or nothing. */
export function shownIn({ attributes, inner }: XmlCell, strings: readonly string[]): number | string | null {
  const [, value] = /<v>(.*?)<\/v>/s.exec(inner) ?? [];
  const [, inline] = /<is>.*?<t[^>]*>(.*?)<\/t>.*?<\/is>/s.exec(inner) ?? [];
  if (inline !== undefined) return plainText(inline);
  if (value === undefined) return null;
  const [, type = "n"] = / t="(\w+)"/.exec(attributes) ?? [];
  if (type === "s") return strings[Number(value)] ?? "";
  return type === "n" ? Number(value) : plainText(value);
}
