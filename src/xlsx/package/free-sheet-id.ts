import { readXml } from "../xml/read-xml.js";

/** A number of a sheet above this is taken for damage, and not for one to count on from. */
const HIGHEST = 60_000;

/** Returns a number that no sheet of a workbook part has; those after it are free too. */
export function freeSheetId(bytes: Uint8Array, place: string): number {
  let highest = 0;
  readXml(bytes, place, {
    open(name, attributes, depth) {
      const id = Number(attributes["sheetId"]);
      if (depth === 3 && name === "sheet" && Number.isInteger(id) && id <= HIGHEST) highest = Math.max(highest, id);
    },
  });
  return highest + 1;
}
