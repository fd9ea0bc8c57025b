import { formatRange, parseRange } from "../address.js";
import { changeReferences } from "../formula/change-references.js";
import { placeOf, readOptionalPart, relationshipsOf } from "../package/read-part.js";
import type { Sheet, Table } from "../sheet.js";
import type { Workbook } from "../workbook.js";
import { utf8Bytes, utf8Text } from "../xml/utf8.js";
import { changeFormula, changeSharedFormula, concerns, type SheetsBetween } from "./change-formula.js";
import { type ElementChange, type OpenElement, rewritePart } from "./rewrite-part.js";
import { grownSpan, movedRow, movedSpan, type RowChange, type RowSpan } from "./row-change.js";
import { partsOfType, refused } from "./structure-context.js";

/** What the parts beside the sheets need to know. */
export interface PartContext {
  readonly workbook: Workbook;
  readonly change: RowChange;
  readonly between: SheetsBetween;
  readonly stuck: (what: string, formula: string) => void;
}

export type PartRewrite = readonly [partName: string, content: Uint8Array];

/** Parts whose formulas stand on no sheet: charts, drawings, controls. */
export const DRAWN =
  /drawingml\.chart\+xml|chartex\+xml|vnd\.openxmlformats-officedocument\.drawing\+xml|controlproperties/;
const CHART_FORMULA = "f";
/** Attributes of drawings and controls that hold a formula. */
export const DRAWING_ATTRIBUTES = ["textlink", "cellRange", "fmlaLink", "fmlaRange", "fmlaTxbx", "fmlaGroup"];

function textAfter(context: PartContext, what: string, text: string, own?: string): string {
  const { change, between, stuck } = context;
  const changed = changeFormula(text, { sheet: own, row: undefined }, change, between);
  if (changed.stuck) stuck(what, text);
  return changed.text;
}

function rewritten(
  { archive }: Workbook,
  partName: string,
  visit: (element: OpenElement) => ElementChange | undefined,
): readonly PartRewrite[] {
  const bytes = readOptionalPart(archive, partName);
  if (bytes === undefined) return [];
  const after = rewritePart(bytes, placeOf(archive, partName), visit);
  return after === bytes ? [] : [[partName, after]];
}

/** Charts, and what drawings and controls show of cells. */
export function drawnParts(context: PartContext): readonly PartRewrite[] {
  const { workbook } = context;
  return partsOfType(workbook, DRAWN).flatMap((partName) =>
    rewritten(workbook, partName, ({ name, attributes }) => {
      if (name === CHART_FORMULA) return { text: (text) => textAfter(context, "a chart", text) };
      const known = DRAWING_ATTRIBUTES.filter((attribute) => attributes[attribute] !== undefined);
      if (known.length === 0) return undefined;
      const after = known.map((attribute) => [attribute, textAfter(context, "a drawing", attributes[attribute] ?? "")]);
      return { attributes: Object.fromEntries(after) };
    }),
  );
}

/** Where pictures, charts and shapes of the sheet stand. */
export function anchoredParts({ workbook, change }: PartContext, sheet: Sheet, done: readonly PartRewrite[]) {
  const drawings = relationshipsOf(workbook.archive, sheet.partName).filter(({ kind }) => kind === "drawing");
  const { at, deleted, order } = change;
  if (order !== undefined) return [];
  const visit = ({ name, parent }: OpenElement): ElementChange | undefined => {
    if (name !== "row" || (parent?.name !== "from" && parent?.name !== "to")) return undefined;
    if (parent.parent?.name === "twoCellAnchor" && parent.parent.attributes["editAs"] === "absolute") return undefined;
    return {
      text: (text) => {
        const row = Number(text) + 1;
        // Where nothing is left of its row, it begins or ends with the row that follows.
        return String((movedRow(change, row) ?? (deleted > 0 ? at : row)) - 1);
      },
    };
  };
  return drawings.flatMap(({ target }) => {
    const known = done.find(([partName]) => partName === target)?.[1];
    const bytes = known ?? readOptionalPart(workbook.archive, target);
    if (bytes === undefined) return [];
    const after = rewritePart(bytes, placeOf(workbook.archive, target), visit);
    return after === bytes ? [] : [[target, after] as const];
  });
}

/** Notes and conversations of the sheet, and the old drawing that shows its notes. */
export function notedParts({ workbook, change }: PartContext, sheet: Sheet): readonly PartRewrite[] {
  return relationshipsOf(workbook.archive, sheet.partName).flatMap(({ kind, target, isExternal }) => {
    if (isExternal) return [];
    if (kind === "vmlDrawing") return vmlAfter(workbook, target, change);
    if (kind !== "comments" && kind !== "threadedComment") return [];
    return rewritten(workbook, target, ({ name, attributes }) => {
      if (name !== "comment" && name !== "threadedComment") return undefined;
      const range = parseRange(attributes["ref"] ?? "");
      if (range === undefined) return undefined;
      const row = movedRow(change, range.firstRow);
      if (row === undefined) return "remove";
      return { attributes: { ref: formatRange({ ...range, firstRow: row, lastRow: row }) } };
    });
  });
}

const SHAPE = /<v:shape\b[^>]*>[\s\S]*?<\/v:shape>/g;

/** Such drawings are not always well-formed XML: only the numbers of rows in them are looked for. */
function vmlAfter({ archive }: Workbook, partName: string, change: RowChange): readonly PartRewrite[] {
  const bytes = readOptionalPart(archive, partName);
  if (bytes === undefined) return [];
  const before = utf8Text(bytes);
  const rowAfter = (row: number): number => (movedRow(change, row + 1) ?? change.at) - 1;
  const after = before.replace(SHAPE, (shape) => {
    const note = /<x:Row>\s*(\d+)\s*<\/x:Row>/.exec(shape)?.[1];
    if (note !== undefined && movedRow(change, Number(note) + 1) === undefined) return "";
    // A note goes with its cell, as high as it is.
    const distance = note === undefined ? 0 : rowAfter(Number(note)) - Number(note);
    const edgeAfter = (row: number): number =>
      change.order === undefined ? rowAfter(row) : Math.max(0, row + distance);
    return shape
      .replace(/(<x:Row>\s*)(\d+)(\s*<\/x:Row>)/g, (_, open: string, row: string, close: string) => {
        return `${open}${rowAfter(Number(row))}${close}`;
      })
      .replace(/(<x:Anchor>)([^<]*)(<\/x:Anchor>)/g, (_, open: string, numbers: string, close: string) => {
        const places = numbers.split(",");
        const moved = places.map((place, index) => {
          return index === 2 || index === 6 ? place.replace(/\d+/, (row) => String(edgeAfter(Number(row)))) : place;
        });
        return places.length === 8 ? `${open}${moved.join(",")}${close}` : open + numbers + close;
      });
  });
  return after === before ? [] : [[partName, utf8Bytes(after)]];
}

/** Tables of the sheet, and formulas of all tables. */
export function tableParts(
  context: PartContext,
  sheets: readonly Sheet[],
  grown: Table | undefined,
): readonly PartRewrite[] {
  const { workbook, change } = context;
  return sheets.flatMap((sheet) =>
    sheet.tables.flatMap((table) => {
      const isOwn = sheet.name === change.sheet;
      const isGrown = grown?.partName === table.partName;
      const spanAfter = (span: RowSpan) => (isOwn ? (isGrown ? grownSpan : movedSpan)(change, span) : span);
      const body = bodyOf(table);
      const bodyAfter = spanAfter(body) ?? body;
      return rewritten(workbook, table.partName, ({ name, attributes }) => {
        if (name === "calculatedColumnFormula") {
          return { text: (text) => columnFormula(context, sheet, table, text, body, bodyAfter) };
        }
        if (name === "totalsRowFormula") return { text: (text) => textAfter(context, table.name, text, sheet.name) };
        if (!["table", "autoFilter", "sortState", "sortCondition"].includes(name)) return undefined;
        const range = parseRange(attributes["ref"] ?? "");
        const after = range && spanAfter({ first: range.firstRow, last: range.lastRow });
        if (range === undefined || after === undefined) return undefined;
        return { attributes: { ref: formatRange({ ...range, firstRow: after.first, lastRow: after.last }) } };
      });
    }),
  );
}

function columnFormula(
  { change, between, stuck }: PartContext,
  sheet: Sheet,
  table: Table,
  text: string,
  body: RowSpan,
  after: RowSpan,
): string {
  const changed = changeSharedFormula(text, body, after, sheet.name, change, between);
  if (changed.stuck) stuck(`a column of the table ${table.name}`, text);
  return changed.text;
}

/** The rows of a table without headings and totals. */
export function bodyOf({ range, headerRows, totalsRows }: Table): RowSpan {
  return { first: range.firstRow + headerRows, last: range.lastRow - totalsRows };
}

/** Pivot tables of the sheet, and what pivot tables anywhere are made of. */
export function pivotParts({ workbook, change }: PartContext, sheet: Sheet): readonly PartRewrite[] {
  const shown = relationshipsOf(workbook.archive, sheet.partName).filter(({ kind }) => kind === "pivotTable");
  const moved = shown.flatMap(({ target }) =>
    rewritten(workbook, target, ({ name, attributes }) => {
      const range = name === "location" ? parseRange(attributes["ref"] ?? "") : undefined;
      if (range === undefined) return undefined;
      const span = { first: range.firstRow, last: range.lastRow };
      const after = movedSpan(change, span);
      if (after === undefined || after.last - after.first !== span.last - span.first) {
        const advice = "Choose rows above or below it.";
        throw refused(
          workbook,
          `sheet “${sheet.name}”, ${formatRange(range)}`,
          "is a pivot table, which is not to be parted",
          advice,
        );
      }
      return { attributes: { ref: formatRange({ ...range, firstRow: after.first, lastRow: after.last }) } };
    }),
  );
  const sources = partsOfType(workbook, /pivotcachedefinition\+xml/i).flatMap((partName) =>
    rewritten(workbook, partName, ({ name, attributes }) => {
      const isSheet = attributes["sheet"]?.toLowerCase() === change.sheet.toLowerCase();
      const range = name === "worksheetSource" && isSheet ? parseRange(attributes["ref"] ?? "") : undefined;
      if (range === undefined) return undefined;
      const after = grownSpan(change, { first: range.firstRow, last: range.lastRow });
      if (after === undefined || movedRow(change, range.firstRow) === undefined) {
        const problem = "are what a pivot table is made of";
        throw refused(
          workbook,
          `sheet “${sheet.name}”, ${formatRange(range)}`,
          problem,
          "Delete the pivot table first.",
        );
      }
      return { attributes: { ref: formatRange({ ...range, firstRow: after.first, lastRow: after.last }) } };
    }),
  );
  return [...moved, ...sources];
}

/** Names that a spreadsheet program gives to places itself; they lie where they say, with dollar signs or without. */
const BUILT_IN = /^_xlnm\./i;

/** Defined names, print areas and titles among them. */
export function namesAfter(context: PartContext): readonly PartRewrite[] {
  const { workbook, change, between, stuck } = context;
  let number = -1;
  return rewritten(workbook, workbook.workbookPart, (element) => {
    if (element.name !== "definedName" || element.parent?.name !== "definedNames") return undefined;
    number += 1;
    const name = workbook.names[number];
    if (name === undefined) return undefined;
    const isBuiltIn = BUILT_IN.test(name.name);
    // Without its dollar sign a place in a name is as far from whatever cell asks for it, and stays so.
    let isRelative = false;
    changeReferences(name.refersTo, (reference) => {
      const isOurs = concerns(reference, name.sheet, change.sheet, between) !== "no";
      if (isOurs && reference.rows.some(({ isFixed }) => !isFixed)) isRelative = true;
      return undefined;
    });
    if (isRelative && !isBuiltIn) return undefined;
    const changed = changeFormula(name.refersTo, { sheet: name.sheet, row: undefined }, change, between);
    if (changed.stuck) stuck(`the name ${name.name}`, name.refersTo);
    if (changed.text === name.refersTo) return undefined;
    if (isBuiltIn && changed.text.includes("#REF!")) return "remove";
    return { text: () => changed.text };
  });
}
