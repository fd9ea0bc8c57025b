import { openWorkbook } from "../../../xlsx/index.js";

/** What of a file a grid does not hold, by the names of its parts. */
const KINDS: readonly (readonly [what: string, part: RegExp])[] = [
  ["charts", /\/charts\/chart[^/]*\.xml$/i],
  ["pictures", /\/media\//i],
  ["pivot tables", /\/pivotTables\//i],
  ["notes and comments", /\/(?:comments|threadedComments)[^/]*(?:\.xml|\/)/i],
  ["macros", /vbaProject\.bin$/i],
  ["links to other workbooks", /\/externalLinks\/[^/]+\.xml$/i],
  ["controls and embedded objects", /\/(?:embeddings|ctrlProps|activeX)\//i],
  ["data connections", /\/(?:connections\.xml|queryTables\/)/i],
  ["data of other programs", /^customXml\//i],
  ["the add-in's mark", /\/webextensions\//i],
];

/** Returns in words what a new file made from the grid leaves out of the file before. */
export function partsLeftOut(bytes: Uint8Array, fileName: string): readonly string[] {
  const { archive } = openWorkbook(bytes, fileName);
  const found = KINDS.filter(([, part]) => archive.entries.some(({ name }) => part.test(name))).map(([what]) => what);
  return [...found, "sheet protection", "print set-up", "help beside input cells"];
}
