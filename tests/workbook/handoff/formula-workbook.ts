import { parseAddress } from "../../../src/xlsx/index.js";
import { plainParts, zipParts } from "../../xlsx/plain-workbook.js";

/** What a cell holds: a value, or a formula with no result stored; `array` is what an array formula fills. */
export type FormulaCellContent =
  | number
  | string
  | boolean
  | null
  | { readonly formula: string; readonly array?: string; readonly isDynamic?: boolean };

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** A table over some cells of the sheet; a column may fill its rows by a formula. */
export interface GivenTable {
  readonly name: string;
  readonly range: string;
  readonly columns: readonly { readonly name: string; readonly formula?: string }[];
}

function escaped(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");
}

function cellXml(at: string, content: FormulaCellContent): string {
  if (content === null) return "";
  if (typeof content === "number") return `<c r="${at}"><v>${content}</v></c>`;
  if (typeof content === "boolean") return `<c r="${at}" t="b"><v>${content ? 1 : 0}</v></c>`;
  if (typeof content === "string") return `<c r="${at}" t="inlineStr"><is><t>${escaped(content)}</t></is></c>`;
  const { formula, array, isDynamic } = content;
  const attributes = array === undefined ? "" : ` t="array" ref="${array}"`;
  return `<c r="${at}"${isDynamic === true ? ' cm="1"' : ""}><f${attributes}>${escaped(formula)}</f></c>`;
}

function tableXml({ name, range, columns }: GivenTable, id: number): string {
  const list = columns.map((column, index) => {
    const start = `<tableColumn id="${index + 1}" name="${escaped(column.name)}"`;
    if (column.formula === undefined) return `${start}/>`;
    return `${start}><calculatedColumnFormula>${escaped(column.formula)}</calculatedColumnFormula></tableColumn>`;
  });
  return `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="${id}" name="${name}" displayName="${name}" ref="${range}"><tableColumns count="${columns.length}">${list.join("")}</tableColumns></table>`;
}

/**
 * A workbook of one sheet in which no formula has a result.
 *
 * @param cells - By address
 * @param names - What each defined name refers to
 */
export function formulaWorkbook(
  cells: Readonly<Record<string, FormulaCellContent>>,
  names: Readonly<Record<string, string>> = {},
  tables: readonly GivenTable[] = [],
): Uint8Array {
  const rows = new Map<number, { readonly column: number; readonly xml: string }[]>();
  for (const [at, content] of Object.entries(cells)) {
    const place = parseAddress(at);
    if (place === undefined) throw new Error(`${at} is no address.`);
    const row = rows.get(place.row) ?? [];
    row.push({ column: place.column, xml: cellXml(at, content) });
    rows.set(place.row, row);
  }
  const data = [...rows]
    .sort(([one], [other]) => one - other)
    .map(([row, list]) => {
      const sorted = list.sort((one, other) => one.column - other.column);
      return `<row r="${row}">${sorted.map(({ xml }) => xml).join("")}</row>`;
    });
  const parts = plainParts(data.join(""));
  const defined = Object.entries(names).map(([name, refersTo]) => {
    return `<definedName name="${name}">${escaped(refersTo)}</definedName>`;
  });
  const book = (parts["xl/workbook.xml"] ?? "").replace(
    "</workbook>",
    `${defined.length > 0 ? `<definedNames>${defined.join("")}</definedNames>` : ""}</workbook>`,
  );
  const links = tables.map((_, index) => {
    return `<Relationship Id="t${index}" Type="${OFFICE}/table" Target="../tables/table${index + 1}.xml"/>`;
  });
  const listed = tables.map((_, index) => `<tablePart xmlns:r="${OFFICE}" r:id="t${index}"/>`);
  const sheet = (parts["xl/worksheets/sheet1.xml"] ?? "").replace(
    "</worksheet>",
    `${tables.length > 0 ? `<tableParts count="${tables.length}">${listed.join("")}</tableParts>` : ""}</worksheet>`,
  );
  const types = tables.map((_, index) => {
    return `<Override PartName="/xl/tables/table${index + 1}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>`;
  });
  return zipParts({
    ...parts,
    "xl/workbook.xml": book,
    "xl/worksheets/sheet1.xml": sheet,
    "[Content_Types].xml": (parts["[Content_Types].xml"] ?? "").replace("</Types>", `${types.join("")}</Types>`),
    ...(tables.length > 0
      ? {
          "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">${links.join("")}</Relationships>`,
        }
      : {}),
    ...Object.fromEntries(
      tables.map((table, index) => [`xl/tables/table${index + 1}.xml`, tableXml(table, index + 1)]),
    ),
  });
}
