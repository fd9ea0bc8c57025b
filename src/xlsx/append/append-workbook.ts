import { placeOf, readOptionalPart, readPart } from "../package/read-part.js";
import { ensureDynamicArrays, METADATA_CONTENT_TYPE, METADATA_RELATIONSHIP } from "../patch/dynamic-array-metadata.js";
import type { PartEdit, WorkbookEdit } from "../patch/edits.js";
import { readSheet } from "../read/read-sheet.js";
import type { DefinedName, SheetEntry, Workbook } from "../workbook.js";
import { escapeXml } from "../xml/text.js";
import { utf8Text } from "../xml/utf8.js";
import { makePartCopier } from "./copy-parts.js";
import { listEdits } from "./list-edits.js";
import { type MergedStyles, mergeStyles, sameStyles } from "./merge-styles.js";
import { type Renames, renameFormula } from "./rename-formula.js";
import { renamesFor } from "./renames-for.js";
import { rewriteSheet } from "./rewrite-sheet.js";

const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const STYLES_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml";

/** Elements of tables and charts whose text is a formula. */
const FORMULA_TEXT = /(<(?:\w+:)?(?:f|calculatedColumnFormula)(?:\s[^>]*)?>)([^<]*)</g;

/** How to add a workbook's sheets to another: the edits, and the names that the sheets have then. */
export interface Appending {
  readonly edits: readonly WorkbookEdit[];
  readonly sheets: readonly string[];
}

/** Whether a sheet stands in the workbook already, as far as names tell: each that refers to it is there, alike. */
function isShared({ name }: SheetEntry, source: Workbook, target: Workbook): boolean {
  const own = source.names.filter(({ refersTo, sheet }) => sheet === undefined && refersTo.startsWith(`${name}!`));
  if (own.length === 0 || !target.sheets.some((sheet) => sheet.name.toLowerCase() === name.toLowerCase())) return false;
  return own.every((wanted) =>
    target.names.some(
      (known) => known.sheet === undefined && known.name === wanted.name && known.refersTo === wanted.refersTo,
    ),
  );
}

function mergedStyles(
  target: Workbook,
  source: Workbook,
): { readonly styles: MergedStyles; readonly edits: readonly PartEdit[] } {
  const partOf = ({ relationships }: Workbook) =>
    relationships.find(({ kind, isExternal }) => kind === "styles" && !isExternal)?.target;
  const [own, other] = [partOf(target), partOf(source)];
  const added = other === undefined ? undefined : readOptionalPart(source.archive, other);
  if (added === undefined)
    return { styles: { bytes: new Uint8Array(), cell: () => 0, difference: () => 0 }, edits: [] };
  if (target.archive === source.archive) return { styles: sameStyles(added), edits: [] };
  const there = own === undefined ? undefined : readOptionalPart(target.archive, own);
  const folder = target.workbookPart.slice(0, target.workbookPart.lastIndexOf("/") + 1);
  const partName = own ?? `${folder}styles.xml`;
  const styles = there === undefined ? sameStyles(added) : mergeStyles(there, added, placeOf(target.archive, partName));
  const relationship = { from: target.workbookPart, type: `${OFFICE}/styles` };
  const first = there === undefined ? { contentType: STYLES_TYPE, relationship } : {};
  return { styles, edits: [{ kind: "part", partName, content: styles.bytes, ...first }] };
}

function dynamicMetadata(target: Workbook): { readonly number: number; readonly edits: readonly PartEdit[] } {
  const known = target.relationships.find(({ kind }) => kind === "sheetMetadata")?.target;
  const folder = target.workbookPart.slice(0, target.workbookPart.lastIndexOf("/") + 1);
  const partName = known ?? `${folder}metadata.xml`;
  const before = known === undefined ? undefined : readOptionalPart(target.archive, known);
  const { bytes, cellMetadata } = ensureDynamicArrays(before, placeOf(target.archive, partName));
  if (bytes === before) return { number: cellMetadata, edits: [] };
  const relationship = { from: target.workbookPart, type: METADATA_RELATIONSHIP };
  const edit: PartEdit = { kind: "part", partName, content: bytes, contentType: METADATA_CONTENT_TYPE, relationship };
  return { number: cellMetadata, edits: [edit] };
}

/** Table parts name themselves and their looks; charts name cells. */
function rewritePart(xml: string, renames: Renames, styles: MergedStyles, tableId: () => number): string {
  return xml
    .replace(/<(?:\w+:)?table\s[^>]*>/, (tag) =>
      tag
        .replace(/\sid="\d+"/, () => ` id="${tableId()}"`)
        .replace(/\s(name|displayName)="([^"]*)"/g, (_, attribute: string, name: string) => {
          return ` ${attribute}="${renames.tables.get(name.toLowerCase()) ?? name}"`;
        }),
    )
    .replace(/\b(\w*[dD]xfId)="(\d+)"/g, (_, attribute: string, index: string) => {
      return `${attribute}="${styles.difference(Number(index))}"`;
    })
    .replace(FORMULA_TEXT, (_, open: string, text: string) => {
      return `${open}${escapeXml(renameFormula(unescaped(text), renames))}<`;
    });
}

function unescaped(text: string): string {
  return text.replace(
    /&(amp|lt|gt|quot|apos);/g,
    (_, name: string) => ({ amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" })[name] ?? "",
  );
}

/**
 * Adds the sheets of one workbook behind those of another. Nothing of the other changes but its lists of sheets, names,
 * styles and parts. A sheet that stands there already, with every name that refers to it, is shared instead of doubled;
 * otherwise sheets and tables get names of their own, and formulas, rules, charts and names follow.
 *
 * @param target - The workbook to add to
 * @param source - The workbook whose sheets are added
 * @returns Edits for `patchWorkbook`, and the added sheets' names
 */
export function appendWorkbook(target: Workbook, source: Workbook): Appending {
  const added = source.sheets.filter((sheet) => sheet.kind === "worksheet" && !isShared(sheet, source, target));
  const renames = renamesFor(target, source, added);
  const { styles, edits: styleEdits } = mergedStyles(target, source);
  const needsDynamic = added.some(({ name }) =>
    readSheet(source, name).cells.formulas.some(({ isDynamic }) => isDynamic),
  );
  const dynamic = needsDynamic ? dynamicMetadata(target) : { number: 0, edits: [] };
  let lastTable = Math.max(0, ...tableIdsOf(target));
  const tableId = (): number => {
    lastTable += 1;
    return lastTable;
  };
  const formula = (text: string): string => renameFormula(text, renames);
  const parts = makePartCopier(target, source, ({ kind, target: partName }, bytes) => {
    if (kind === "worksheet") {
      return rewriteSheet(bytes, placeOf(source.archive, partName), {
        source,
        styles,
        dynamicMetadata: dynamic.number,
        sharesTexts: target.archive === source.archive,
        formula,
      });
    }
    return kind === "table" || kind === "chart" ? rewritePart(utf8Text(bytes), renames, styles, tableId) : bytes;
  });
  const sheets = added.map((entry) => {
    const relationship = {
      id: "",
      kind: "worksheet",
      type: `${OFFICE}/worksheet`,
      target: entry.partName,
      isExternal: false,
    };
    const name = renames.sheets.get(entry.name.toLowerCase()) ?? entry.name;
    return { name, partName: parts.copy(relationship), visibility: entry.visibility, from: entry.name };
  });
  const names = source.names.flatMap((name) => nameFor(name, renames, sheets, target));
  const chain = target.relationships.find(({ kind }) => kind === "calcChain");
  return {
    edits: [
      ...parts.edits,
      ...styleEdits,
      ...dynamic.edits,
      ...listEdits(target, sheets, names, [...styleEdits, ...dynamic.edits]),
      ...(chain === undefined ? [] : [{ kind: "removePart" as const, partName: chain.target }]),
    ],
    sheets: sheets.map(({ name }) => name),
  };
}

/** A name as it is known in the workbook afterwards; none where the workbook has it already, or the sheet is not added. */
function nameFor(
  { name, sheet, refersTo, isHidden }: DefinedName,
  renames: Renames,
  sheets: readonly { readonly name: string; readonly from: string }[],
  target: Workbook,
): readonly DefinedName[] {
  const meant = renameFormula(refersTo, renames);
  if (sheet !== undefined) {
    const scope = sheets.find(({ from }) => from === sheet)?.name;
    return scope === undefined ? [] : [{ name, sheet: scope, refersTo: meant, isHidden }];
  }
  const there = target.names.find(
    (known) => known.sheet === undefined && known.name.toLowerCase() === name.toLowerCase(),
  );
  if (there === undefined) return [{ name, sheet: undefined, refersTo: meant, isHidden }];
  if (there.refersTo === meant) return [];
  // The same name with another meaning stays known on the sheet that it refers to.
  const scope = sheets.find(
    (one) => meant.startsWith(`'${one.name.replaceAll("'", "''")}'!`) || meant.startsWith(`${one.name}!`),
  );
  return scope === undefined ? [] : [{ name, sheet: scope.name, refersTo: meant, isHidden }];
}

function tableIdsOf(workbook: Workbook): readonly number[] {
  const worksheets = workbook.sheets.filter(({ kind }) => kind === "worksheet");
  return worksheets.flatMap(({ name }) =>
    readSheet(workbook, name).tables.map(({ partName }) => {
      const tag = /<(?:\w+:)?table\s[^>]*>/.exec(utf8Text(readPart(workbook.archive, partName)))?.[0] ?? "";
      return Number(/\sid="(\d+)"/.exec(tag)?.[1] ?? 0);
    }),
  );
}
