import { strFromU8 } from "fflate";
import { formatAddress, type Workbook, type WorkbookEdit } from "../xlsx/index.js";
import { readOptionalPart, readPart } from "../xlsx/package/read-part.js";
import { relationshipsPartOf } from "../xlsx/package/relationships.js";
import { encodeXstring, escapeXml } from "../xlsx/xml/text.js";
import type { HandoffCell } from "./handoff-cell.js";
import { TRANSLATIONS } from "./translations.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONSHIP = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** So many cells are named one by one; a count says how many more there are. */
const MOST_LISTED = 2000;

type Line = readonly string[];

function counts(cells: readonly HandoffCell[]): readonly Line[] {
  const byFunction = new Map<string, number>();
  for (const name of cells.flatMap(({ functions }) => functions)) {
    byFunction.set(name, (byFunction.get(name) ?? 0) + 1);
  }
  return [...byFunction].sort(([a], [b]) => a.localeCompare(b, "en")).map(([name, count]) => [name, `${count} cells`]);
}

/** Why a function has no plain formula, as far as the function itself is the reason. */
function reasonOf(name: string): string {
  const translation = TRANSLATIONS[name.replace(/^VANE\./, "")];
  return translation?.kind === "value" ? translation.reason : "This call has no plain formula.";
}

function lines(plain: readonly HandoffCell[], values: readonly HandoffCell[]): readonly Line[] {
  const listed = values
    .slice(0, MOST_LISTED)
    .map(({ sheet, address, functions }) => [
      `${sheet}!${address}`,
      functions.join(", "),
      functions.map(reasonOf).join(" "),
    ]);
  const more = values.length - listed.length;
  return [
    ["Hand-off copy"],
    ["This copy calculates in any spreadsheet program, without the add-in."],
    [],
    ["Replaced by plain formulas"],
    ...(plain.length === 0 ? [["none"]] : counts(plain)),
    [],
    ["Kept as values, which no longer follow the readings"],
    ...(values.length === 0 ? [["none"]] : listed),
    ...(more > 0 ? [[`and ${more} more`]] : []),
  ];
}

function worksheet(rows: readonly Line[]): string {
  const data = rows.map((cells, index) => {
    const row = index + 1;
    const written = cells.map((text, column) => {
      const shown = escapeXml(encodeXstring(text));
      return `<c r="${formatAddress(row, column + 1)}" t="inlineStr"><is><t xml:space="preserve">${shown}</t></is></c>`;
    });
    return `<row r="${row}">${written.join("")}</row>`;
  });
  const columns = [34, 40, 80].map((width, index) => {
    return `<col min="${index + 1}" max="${index + 1}" width="${width}" customWidth="1"/>`;
  });
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<worksheet xmlns="${MAIN}"><cols>${columns.join("")}</cols><sheetData>${data.join("")}</sheetData></worksheet>`;
}

function freeName(base: string, isTaken: (name: string) => boolean): string {
  let name = base;
  for (let number = 2; isTaken(name); number += 1) name = `${base} ${number}`;
  return name;
}

/** Text put in before the last closing tag of that name, whatever the prefix of its namespace. */
function inserted(xml: string, tag: string, element: (prefix: string) => string): string {
  const close = new RegExp(`</((?:\\w+:)?)${tag}>(?![^]*</(?:\\w+:)?${tag}>)`);
  return xml.replace(close, (whole, prefix: string) => element(prefix) + whole);
}

/** Adds a last sheet that says what was replaced, and what no longer follows. */
export function noteSheetEdits(
  workbook: Workbook,
  plain: readonly HandoffCell[],
  values: readonly HandoffCell[],
): readonly WorkbookEdit[] {
  const { workbookPart, archive } = workbook;
  const folder = workbookPart.slice(0, workbookPart.lastIndexOf("/") + 1);
  const isPart = (name: string) => readOptionalPart(archive, `${folder}worksheets/${name}.xml`) !== undefined;
  const file = freeName("handoff", isPart).replace(" ", "");
  const names = workbook.sheets.map((sheet) => sheet.name.toLowerCase());
  const name = freeName("Hand-off note", (candidate) => names.includes(candidate.toLowerCase()));
  const list = strFromU8(readPart(archive, workbookPart));
  const relationshipsPart = relationshipsPartOf(workbookPart);
  const relationships = strFromU8(readPart(archive, relationshipsPart));
  const id = freeName("rIdHandoff", (candidate) => relationships.includes(`"${candidate}"`)).replace(" ", "");
  const numbers = [...list.matchAll(/\bsheetId="(\d+)"/g)].map(([, number]) => Number(number));
  const sheetId = Math.max(0, ...numbers) + 1;
  const entry = (prefix: string) =>
    `<${prefix}sheet xmlns:r="${RELATIONSHIP}" name="${escapeXml(name)}" sheetId="${sheetId}" r:id="${id}"/>`;
  const relationship = (prefix: string) =>
    `<${prefix}Relationship Id="${id}" Type="${RELATIONSHIP}/worksheet" Target="worksheets/${file}.xml"/>`;
  return [
    {
      kind: "part",
      partName: `${folder}worksheets/${file}.xml`,
      content: worksheet(lines(plain, values)),
      contentType: CONTENT_TYPE,
    },
    { kind: "part", partName: workbookPart, content: inserted(list, "sheets", entry) },
    { kind: "part", partName: relationshipsPart, content: inserted(relationships, "Relationships", relationship) },
  ];
}
