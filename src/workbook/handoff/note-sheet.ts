import { formatAddress, type Workbook, type WorkbookEdit } from "../../xlsx/index.js";
import { withNewRelationship } from "../../xlsx/package/change-lists.js";
import { freeSheetId } from "../../xlsx/package/free-sheet-id.js";
import { placeOf, readPart } from "../../xlsx/package/read-part.js";
import { relationshipsPartOf } from "../../xlsx/package/relationships.js";
import { insertInList } from "../../xlsx/xml/insert-in-list.js";
import { encodeXstring, escapeXml } from "../../xlsx/xml/text.js";
import { utf8Bytes } from "../../xlsx/xml/utf8.js";
import { findEntry } from "../../xlsx/zip/archive.js";
import { cellBlocks } from "./cell-blocks.js";
import type { Handoff } from "./handoff.js";
import type { HandoffCell } from "./handoff-cell.js";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONSHIP = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const CONTENT_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** So many cells and blocks are named one by one; a count says how many more there are. */
const MOST_LISTED = 2000;

type Line = readonly string[];

function counts(cells: readonly HandoffCell[]): readonly Line[] {
  const byFunction = new Map<string, number>();
  for (const name of cells.flatMap(({ functions }) => functions)) {
    byFunction.set(name, (byFunction.get(name) ?? 0) + 1);
  }
  return [...byFunction].sort(([a], [b]) => a.localeCompare(b, "en")).map(([name, count]) => [name, `${count} cells`]);
}

function lines({ plain, values, names }: Handoff): readonly Line[] {
  const kept = names.filter(({ reasons }) => reasons.length > 0);
  const blocks = cellBlocks(values);
  const listed = blocks
    .slice(0, MOST_LISTED)
    .map(({ sheet, address, functions, reasons }) => [`${sheet}!${address}`, functions.join(", "), reasons.join(" ")]);
  const more = blocks.length - listed.length;
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
    ...(kept.length === 0 ? [] : [[], ["Names that keep a call, and show #NAME? without the add-in"]]),
    ...kept.map(({ name, sheet, functions, reasons }) => [
      sheet === "" ? name : `${sheet}!${name}`,
      functions.join(", "),
      reasons.join(" "),
    ]),
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

function freeName(base: string, space: string, isTaken: (name: string) => boolean): string {
  let name = base;
  for (let number = 2; isTaken(name); number += 1) name = `${base}${space}${number}`;
  return name;
}

/** Adds a last sheet that says what was replaced, and what no longer follows. */
export function noteSheetEdits(workbook: Workbook, handoff: Handoff): readonly WorkbookEdit[] {
  const { workbookPart, archive } = workbook;
  const folder = workbookPart.slice(0, workbookPart.lastIndexOf("/") + 1);
  const partOf = (file: string) => `${folder}worksheets/${file}.xml`;
  const file = freeName("handoff", "", (candidate) => findEntry(archive, partOf(candidate)) !== undefined);
  const names = workbook.sheets.map((sheet) => sheet.name.toLowerCase());
  const name = freeName("Hand-off note", " ", (candidate) => names.includes(candidate.toLowerCase()));
  const id = freeName("rIdHandoff", "", (candidate) => workbook.relationships.some((known) => known.id === candidate));
  // The names may have changed in it.
  const changed = handoff.edits.find((edit) => edit.kind === "part" && edit.partName === workbookPart);
  const content = changed?.kind === "part" ? changed.content : readPart(archive, workbookPart);
  const list = typeof content === "string" ? utf8Bytes(content) : content;
  const place = placeOf(archive, workbookPart);
  const sheetId = freeSheetId(list, place);
  const entry = (prefix: string) =>
    `<${prefix}sheet xmlns:r="${RELATIONSHIP}" name="${escapeXml(name)}" sheetId="${sheetId}" r:id="${id}"/>`;
  const relationship = { id, type: `${RELATIONSHIP}/worksheet`, target: partOf(file) };
  const relationshipsPart = relationshipsPartOf(workbookPart);
  const relationships = readPart(archive, relationshipsPart);
  return [
    {
      kind: "part",
      partName: partOf(file),
      content: worksheet(lines(handoff)),
      contentType: CONTENT_TYPE,
    },
    { kind: "part", partName: workbookPart, content: insertInList(list, place, "sheets", [], entry) },
    {
      kind: "part",
      partName: relationshipsPart,
      content: withNewRelationship(relationships, placeOf(archive, relationshipsPart), relationship),
    },
  ];
}
