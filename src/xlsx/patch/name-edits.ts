import { placeOf, readPart } from "../package/read-part.js";
import type { DefinedName, Workbook } from "../workbook.js";
import { insertInList } from "../xml/insert-in-list.js";
import { readXml } from "../xml/read-xml.js";
import { spliceBytes } from "../xml/splice.js";
import { escapeXml } from "../xml/text.js";
import type { PartEdit } from "./edits.js";

/** Before the list of names stands, in this order, what there is of these. */
const BEFORE_NAMES = ["externalReferences", "functionGroups", "sheets"];

/** Takes names out of the part that lists them; a list that is empty then goes too, as the format asks. */
function withoutNames(part: Uint8Array, place: string, isUnwanted: (name: string) => boolean): Uint8Array {
  const splices: { start: number; end: number; text: string }[] = [];
  let list = { start: -1, end: -1 };
  let [listStart, from, inList, kept] = [-1, -1, false, 0];
  readXml(part, place, {
    open(name, attributes, depth, start) {
      if (depth === 2) {
        inList = name === "definedNames";
        listStart = start;
      }
      if (depth !== 3 || !inList) return;
      // A name of one sheet alone is another one.
      const isOfSheet = attributes["localSheetId"] !== undefined;
      from = !isOfSheet && isUnwanted(attributes["name"] ?? "") ? start : -1;
      if (from < 0) kept += 1;
    },
    close(name, depth, _start, end) {
      if (depth === 3 && inList && from >= 0) splices.push({ start: from, end, text: "" });
      if (depth === 2 && name === "definedNames") list = { start: listStart, end };
    },
  });
  if (splices.length === 0) return part;
  return spliceBytes(part, kept === 0 ? [{ ...list, text: "" }] : splices);
}

/**
 * Returns the edit that puts defined names of the whole workbook into a file in place of others. Only the part that lists
 * sheets and names changes, and in it only the text of those names.
 *
 * @param isReplaced - Which names of the file go
 */
export function nameEdits(
  workbook: Workbook,
  names: readonly Omit<DefinedName, "sheet">[],
  isReplaced: (name: string) => boolean,
): readonly PartEdit[] {
  const { archive, workbookPart } = workbook;
  const place = placeOf(archive, workbookPart);
  const part = readPart(archive, workbookPart);
  const rest = withoutNames(part, place, isReplaced);
  const xml = (prefix: string) =>
    names
      .map(({ name, refersTo, isHidden }) => {
        const hidden = isHidden ? ' hidden="1"' : "";
        return `<${prefix}definedName name="${escapeXml(name)}"${hidden}>${escapeXml(refersTo)}</${prefix}definedName>`;
      })
      .join("");
  const content = names.length === 0 ? rest : insertInList(rest, place, "definedNames", BEFORE_NAMES, xml);
  return content === part ? [] : [{ kind: "part", partName: workbookPart, content }];
}
