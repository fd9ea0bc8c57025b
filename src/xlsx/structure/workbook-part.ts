import { placeOf, readPart } from "../package/read-part.js";
import type { DefinedName, Workbook } from "../workbook.js";
import { readXml } from "../xml/read-xml.js";
import { spliceBytes } from "../xml/splice.js";
import { utf8Text } from "../xml/utf8.js";
import { type ElementChange, type OpenElement, rewritePart } from "./rewrite-part.js";

/** What becomes of the list of sheets and of the names. */
export interface SheetListChange {
  /** The sheets by their places before, in their new order; those left out go. */
  readonly order: readonly number[];
  /** New names of sheets, by their places before. */
  readonly names: ReadonlyMap<number, string>;
  /** What a name refers to from now on; undefined takes it out. */
  readonly refersTo: (name: DefinedName) => string | undefined;
}

/** Puts the elements of the list of sheets in another order, or takes some out. */
function reordered(bytes: Uint8Array, place: string, order: readonly number[]): Uint8Array {
  const sheets: { start: number; end: number }[] = [];
  let parent = "";
  let start = 0;
  readXml(bytes, place, {
    open(name, _attributes, depth, from) {
      if (depth === 2) parent = name;
      if (depth === 3) start = from;
    },
    close(name, depth, _start, end) {
      if (depth === 3 && parent === "sheets" && name === "sheet") sheets.push({ start, end });
    },
  });
  if (order.length === sheets.length && order.every((place, index) => place === index)) return bytes;
  const texts = sheets.map(({ start: from, end }) => utf8Text(bytes.subarray(from, end)));
  return spliceBytes(
    bytes,
    sheets.map(({ start: from, end }, index) => ({ start: from, end, text: texts[order[index] ?? -1] ?? "" })),
  );
}

/** Rewrites the part that lists sheets and names. */
export function sheetListAfter(workbook: Workbook, { order, names, refersTo }: SheetListChange): Uint8Array {
  const place = placeOf(workbook.archive, workbook.workbookPart);
  const bytes = readPart(workbook.archive, workbook.workbookPart);
  const placeAfter = (index: number): number => order.indexOf(index);
  let sheet = -1;
  let name = -1;
  const tabs = (attributes: OpenElement["attributes"], attribute: string): Record<string, string> => {
    const index = Number(attributes[attribute]);
    if (attributes[attribute] === undefined || !Number.isInteger(index)) return {};
    // Where that sheet is gone, the one that takes its place is in view.
    const after = placeAfter(index);
    return { [attribute]: String(after < 0 ? Math.min(index, order.length - 1) : after) };
  };
  const visit = (element: OpenElement): ElementChange | undefined => {
    const { attributes, parent } = element;
    if (element.name === "workbookView") {
      return { attributes: { ...tabs(attributes, "activeTab"), ...tabs(attributes, "firstSheet") } };
    }
    if (element.name === "sheet" && parent?.name === "sheets") {
      sheet += 1;
      const renamed = names.get(sheet);
      return renamed === undefined ? undefined : { attributes: { name: renamed } };
    }
    if (element.name !== "definedName" || parent?.name !== "definedNames") return undefined;
    name += 1;
    const known = workbook.names[name];
    if (known === undefined) return undefined;
    const scope = attributes["localSheetId"];
    const after = refersTo(known);
    if (after === undefined || (scope !== undefined && placeAfter(Number(scope)) < 0)) return "remove";
    return {
      ...(scope === undefined ? {} : { attributes: { localSheetId: String(placeAfter(Number(scope))) } }),
      ...(after === known.refersTo ? {} : { text: () => after }),
    };
  };
  return reordered(rewritePart(bytes, place, visit), place, order);
}
