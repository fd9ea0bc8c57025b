import { WORKBOOK_LIMITS } from "../limits.js";
import { placeOf, readOptionalPart, readPart } from "../package/read-part.js";
import { readSheet } from "../read/read-sheet.js";
import type { Sheet } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { type Splice, spliceBytes } from "../xml/splice.js";
import { encodeXstring, escapeText } from "../xml/text.js";
import { utf8Bytes } from "../xml/utf8.js";
import { type ElementChange, type OpenElement, partSplices, rewritePart } from "./rewrite-part.js";
import { DRAWING_ATTRIBUTES, DRAWN, type PartRewrite } from "./rewrite-parts.js";
import { tagAt } from "./row-splices.js";
import { partsOfType } from "./structure-context.js";

/** What holds a formula: a sheet's cell or rule, a table, or a chart or drawing, which stands on no sheet by itself. */
export interface FormulaHolder {
  readonly sheet: string | undefined;
  /** A cell's place, where it is one. */
  readonly row?: number;
  readonly column?: number;
  /** In words, where it is none. */
  readonly what: string;
}

/** Gives a formula anew; the same text leaves it. */
export type FormulaRewrite = (formula: string, holder: FormulaHolder) => string;

const IN_SHEETS = new Set(["f", "formula", "formula1", "formula2"]);
const IN_TABLES = new Set(["calculatedColumnFormula", "totalsRowFormula"]);
const IN_TAGS: Readonly<Record<string, readonly string[]>> = {
  controlPr: ["linkedCell", "listFillRange"],
  hyperlink: ["location"],
};

function attributesAfter(
  { attributes }: OpenElement,
  names: readonly string[],
  rewrite: (formula: string) => string,
): ElementChange | undefined {
  const given = names.filter((name) => attributes[name] !== undefined);
  if (given.length === 0) return undefined;
  return { attributes: Object.fromEntries(given.map((name) => [name, rewrite(attributes[name] ?? "")])) };
}

function cellSplices(sheet: Sheet, bytes: Uint8Array, rewrite: FormulaRewrite): readonly Splice[] {
  return sheet.cells.formulas.flatMap(({ text, row, column, start, end }): readonly Splice[] => {
    if (text === "") return [];
    const after = rewrite(text, { sheet: sheet.name, row, column, what: "a cell" });
    const tag = tagAt(bytes, start);
    if (after === text || tag.endsWith("/>")) return [];
    const opened = start + utf8Bytes(tag).length;
    return [{ start: opened, end: bytes.lastIndexOf(0x3c, end - 1), text: escapeText(encodeXstring(after)) }];
  });
}

function sheetAfter(workbook: Workbook, sheet: Sheet, rewrite: FormulaRewrite): readonly PartRewrite[] {
  const bytes = readPart(workbook.archive, sheet.partName, WORKBOOK_LIMITS.partBytes);
  const { openEnd, closeStart } = sheet.layout.sheetData;
  const around = (formula: string): string => rewrite(formula, { sheet: sheet.name, what: "a rule" });
  const visit = (element: OpenElement): ElementChange | undefined => {
    if (IN_SHEETS.has(element.name)) return { text: around };
    if (element.name === "cfvo" && Number.isNaN(Number(element.attributes["val"] ?? 0))) {
      return attributesAfter(element, ["val"], around);
    }
    return attributesAfter(element, IN_TAGS[element.name] ?? [], around);
  };
  const cells = openEnd < closeStart ? { start: openEnd, end: closeStart } : undefined;
  const rest = partSplices(bytes, placeOf(workbook.archive, sheet.partName), visit, cells);
  const splices = [...cellSplices(sheet, bytes, rewrite), ...rest];
  return splices.length === 0 ? [] : [[sheet.partName, spliceBytes(bytes, splices)]];
}

/** Rewrites every formula of a workbook but those of its names: cells, rules, tables, charts, drawings, links. */
export function formulasRewritten(
  workbook: Workbook,
  rewrite: FormulaRewrite,
  isLeft: (sheet: string) => boolean = () => false,
): readonly PartRewrite[] {
  const { archive } = workbook;
  const rewritten = (partName: string, visit: (element: OpenElement) => ElementChange | undefined) => {
    const bytes = readOptionalPart(archive, partName);
    const after = bytes && rewritePart(bytes, placeOf(archive, partName), visit);
    return after === undefined || after === bytes ? [] : [[partName, after] as const];
  };
  const sheets = workbook.sheets
    .filter(({ kind, name }) => kind === "worksheet" && !isLeft(name))
    .map(({ name }) => readSheet(workbook, name));
  const drawn = (formula: string): string => rewrite(formula, { sheet: undefined, what: "a chart or drawing" });
  return [
    ...sheets.flatMap((sheet) => [
      ...sheetAfter(workbook, sheet, rewrite),
      ...sheet.tables.flatMap(({ partName, name }) =>
        rewritten(partName, (element) =>
          IN_TABLES.has(element.name)
            ? { text: (text) => rewrite(text, { sheet: sheet.name, what: `the table ${name}` }) }
            : undefined,
        ),
      ),
    ]),
    ...partsOfType(workbook, DRAWN).flatMap((partName) =>
      rewritten(partName, (element) =>
        element.name === "f" ? { text: drawn } : attributesAfter(element, DRAWING_ATTRIBUTES, drawn),
      ),
    ),
  ];
}
