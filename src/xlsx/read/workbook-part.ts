import { WORKBOOK_LIMITS } from "../limits.js";
import type { Relationship } from "../package/relationships.js";
import type { DefinedName, SheetEntry, Workbook } from "../workbook.js";
import { WorkbookFileError } from "../workbook-file-error.js";
import { readXml, type XmlAttributes } from "../xml/read-xml.js";
import { decodeXstring } from "../xml/text.js";

type WorkbookPart = Pick<Workbook, "sheets" | "names" | "usesDate1904" | "isStructureProtected" | "activeSheet">;

/** Relationship kinds that lead to a sheet; macro sheets come under Microsoft's own addresses. */
const SHEET_KINDS: ReadonlyMap<string, SheetEntry["kind"]> = new Map([
  ["worksheet", "worksheet"],
  ["chartsheet", "chartsheet"],
  ["dialogsheet", "dialogsheet"],
  ["xlMacrosheet", "macrosheet"],
  ["xlIntlMacrosheet", "macrosheet"],
]);

/** Reads the part that lists sheets and defined names. */
export function readWorkbookPart(
  bytes: Uint8Array,
  place: string,
  relationships: readonly Relationship[],
): WorkbookPart {
  const byId = new Map(relationships.map((relationship) => [relationship.id, relationship]));
  const sheets: SheetEntry[] = [];
  const names: { attributes: XmlAttributes; refersTo: string }[] = [];
  const path: string[] = [];
  let usesDate1904 = false;
  let isStructureProtected = false;
  let activeTab = 0;
  let refersTo: string | undefined;
  readXml(bytes, place, {
    open(name, attributes, depth) {
      path[depth] = name;
      if (depth === 1 && name !== "workbook") throw damaged(place, "is not a workbook part");
      if (depth === 2 && name === "workbookPr") usesDate1904 = isTrue(attributes["date1904"]);
      if (depth === 2 && name === "workbookProtection") isStructureProtected = isTrue(attributes["lockStructure"]);
      if (depth === 3 && name === "workbookView") activeTab = Number(attributes["activeTab"] ?? 0);
      if (depth === 3 && path[2] === "sheets" && name === "sheet") sheets.push(readEntry(attributes, byId, place));
      if (depth === 3 && path[2] === "definedNames" && name === "definedName") {
        refersTo = "";
        names.push({ attributes, refersTo });
      }
    },
    text(chunk) {
      if (refersTo !== undefined) refersTo += chunk;
    },
    close(_name, depth) {
      if (depth !== 3 || refersTo === undefined) return;
      const last = names.at(-1);
      if (last !== undefined) last.refersTo = refersTo;
      refersTo = undefined;
    },
  });
  checkSheets(sheets, place);
  return {
    sheets,
    names: names.map((name) => toDefinedName(name.attributes, name.refersTo, sheets)),
    usesDate1904,
    isStructureProtected,
    activeSheet: sheets[activeTab]?.name,
  };
}

function readEntry(attributes: XmlAttributes, byId: ReadonlyMap<string, Relationship>, place: string): SheetEntry {
  const name = attributes["name"];
  if (name === undefined || name === "") throw damaged(place, "lists a sheet without a name");
  const idKey = Object.keys(attributes).find((key) => key.endsWith(":id"));
  const relationship = byId.get((idKey && attributes[idKey]) ?? "");
  const kind = SHEET_KINDS.get(relationship?.kind ?? "");
  if (relationship === undefined || kind === undefined || relationship.isExternal) {
    throw damaged(place, `lists the sheet “${name}”, which the file does not hold`);
  }
  const state = attributes["state"];
  const visibility = state === "hidden" || state === "veryHidden" ? state : "visible";
  return { name: decodeXstring(name), visibility, kind, partName: relationship.target };
}

function checkSheets(sheets: readonly SheetEntry[], place: string): void {
  if (sheets.length === 0) throw damaged(place, "lists no sheet");
  if (sheets.length > WORKBOOK_LIMITS.sheets) {
    const problem = `lists more than ${WORKBOOK_LIMITS.sheets} sheets`;
    throw new WorkbookFileError("too-large", place, problem, "Split the workbook.");
  }
  for (const pick of [(sheet: SheetEntry) => sheet.name, (sheet: SheetEntry) => sheet.partName]) {
    const seen = new Set<string>();
    for (const sheet of sheets) {
      const key = pick(sheet).toLowerCase();
      if (seen.has(key)) throw damaged(place, `lists the sheet “${sheet.name}” twice`);
      seen.add(key);
    }
  }
}

function toDefinedName(attributes: XmlAttributes, refersTo: string, sheets: readonly SheetEntry[]): DefinedName {
  const scope = attributes["localSheetId"];
  return {
    name: decodeXstring(attributes["name"] ?? ""),
    sheet: scope === undefined ? undefined : sheets[Number(scope)]?.name,
    refersTo: refersTo.trim(),
    isHidden: isTrue(attributes["hidden"]),
  };
}

/** XML schema's booleans. */
export function isTrue(value: string | undefined): boolean {
  return value === "1" || value === "true" || value === "on";
}

function damaged(place: string, problem: string): WorkbookFileError {
  const advice = "Open it in your spreadsheet program, let it repair the file, and save it again.";
  return new WorkbookFileError("damaged-workbook", place, problem, advice);
}
