import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readPart } from "../package/read-part.js";
import { readSheet } from "../read/read-sheet.js";
import type { Workbook } from "../workbook.js";
import { readXml } from "../xml/read-xml.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { utf8Text } from "../xml/utf8.js";
import type { PartEdit } from "./edits.js";

/**
 * The number of a paper's size in a sheet's page set-up.
 *
 * @source ECMA-376-1, 18.3.1.63 pageSetup, attribute paperSize
 */
const PAPER_NUMBERS = { letter: "1", a4: "9" } as const;

export type Paper = keyof typeof PAPER_NUMBERS;

/**
 * Returns the edits that have every sheet with a page set-up printed on one paper; margins, scale and titles stay.
 *
 * @param workbook - The workbook as opened
 * @param paper - The paper to print on
 */
export function paperEdits(workbook: Workbook, paper: Paper): readonly PartEdit[] {
  return workbook.sheets
    .filter(({ kind }) => kind === "worksheet")
    .flatMap(({ name }) => {
      const { partName } = readSheet(workbook, name);
      const part = readPart(workbook.archive, partName, WORKBOOK_LIMITS.partBytes);
      const splices: Splice[] = [];
      readXml(part, placeOf(workbook.archive, partName), {
        open(element, attributes, depth, start, end) {
          if (depth !== 2 || element !== "pageSetup" || attributes["paperSize"] === PAPER_NUMBERS[paper]) return;
          const tag = utf8Text(part.subarray(start, end));
          const set = ` paperSize="${PAPER_NUMBERS[paper]}"`;
          const isSet = attributes["paperSize"] !== undefined;
          const text = isSet
            ? tag.replace(/\spaperSize\s*=\s*(?:"[^"]*"|'[^']*')/, set)
            : tag.replace(/^<[^\s/>]+/, (opening) => opening + set);
          splices.push({ start, end, text });
        },
      });
      return splices.length === 0 ? [] : [{ kind: "part", partName, content: spliceBytes(part, splices) }];
    });
}
