import { withRelationship } from "../package/change-lists.js";
import { freeSheetId } from "../package/free-sheet-id.js";
import { placeOf, readOptionalPart, readPart } from "../package/read-part.js";
import { readRelationships, relationshipsPartOf } from "../package/relationships.js";
import type { PartEdit } from "../patch/edits.js";
import type { DefinedName, SheetVisibility, Workbook } from "../workbook.js";
import { insertInList } from "../xml/insert-in-list.js";
import { escapeXml } from "../xml/text.js";
import { utf8Bytes } from "../xml/utf8.js";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** A sheet to list. */
export interface ListedSheet {
  readonly name: string;
  readonly partName: string;
  readonly visibility: SheetVisibility;
}

/** Lists sheets and names in the workbook part, and the sheets' parts among its relationships. */
export function listEdits(
  target: Workbook,
  sheets: readonly ListedSheet[],
  names: readonly DefinedName[],
  others: readonly PartEdit[],
): readonly PartEdit[] {
  const { archive, workbookPart } = target;
  const listName = relationshipsPartOf(workbookPart);
  const place = placeOf(archive, listName);
  // Relationships of other edits come in here too: the list is written once.
  const wanted = [
    ...others.flatMap(({ partName, relationship }) =>
      relationship === undefined ? [] : [{ source: workbookPart, type: relationship.type, target: partName }],
    ),
    ...sheets.map(({ partName }) => ({ source: workbookPart, type: `${OFFICE}/worksheet`, target: partName })),
  ];
  const list = wanted.reduce<Uint8Array | undefined>(
    (bytes, relationship) => withRelationship(bytes, place, relationship),
    readOptionalPart(archive, listName),
  );
  const relationships = readRelationships(list ?? utf8Bytes(""), place, workbookPart);
  const part = readPart(archive, workbookPart);
  const partPlace = placeOf(archive, workbookPart);
  const firstId = freeSheetId(part, partPlace);
  const sheetXml = (prefix: string) =>
    sheets
      .map(({ name, partName, visibility }, index) => {
        const id = relationships.find(({ target: to }) => to.toLowerCase() === partName.toLowerCase())?.id ?? "";
        const state = visibility === "visible" ? "" : ` state="${visibility}"`;
        return `<${prefix}sheet xmlns:r="${OFFICE}" name="${escapeXml(name)}" sheetId="${firstId + index}"${state} r:id="${escapeXml(id)}"/>`;
      })
      .join("");
  const positions = new Map([...target.sheets, ...sheets].map(({ name }, index) => [name, index]));
  const nameXml = (prefix: string) =>
    names
      .map(({ name, sheet, refersTo, isHidden }) => {
        const scope = sheet === undefined ? "" : ` localSheetId="${positions.get(sheet)}"`;
        const hidden = isHidden ? ' hidden="1"' : "";
        return `<${prefix}definedName name="${escapeXml(name)}"${scope}${hidden}>${escapeXml(refersTo)}</${prefix}definedName>`;
      })
      .join("");
  const withSheets = insertInList(part, partPlace, "sheets", [], sheetXml);
  const behind = ["externalReferences", "functionGroups", "sheets"];
  const content =
    names.length === 0 ? withSheets : insertInList(withSheets, partPlace, "definedNames", behind, nameXml);
  return [
    { kind: "part", partName: listName, content: list ?? utf8Bytes("") },
    { kind: "part", partName: workbookPart, content },
  ];
}
